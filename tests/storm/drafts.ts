/** What a station enters next, by chance: any kind that its role may write, the cuff loop's kinds most. */
import fc from 'fast-check';
import { mayStrike, mayWrite } from '../../core/record/admit.ts';
import type { Fact, Kind, Role } from '../../core/index.ts';
import type { Random } from '../../demo/random.ts';
import type { FactDraft } from '../../stations/kit/session.ts';
import { PAYLOADS } from '../properties/payloads.ts';

const PER_KIND = 40;
const OFTEN: readonly Kind[] = ['cuff.read', 'cuff.set', 'ready.checked', 'sole.set', 'boot.described'];

export type WritingRole = Exclude<Role, 'server'>;

export const sessionId = (random: Random): string =>
  Array.from({ length: 32 }, () => Math.floor(random.between(0, 16)).toString(16)).join('');

/** A stock of payloads, the same for the same seed. */
export class Drafts {
  readonly #stock = new Map<Kind, unknown[]>();

  constructor(seed: number) {
    for (const [kind, payload] of Object.entries(PAYLOADS))
      this.#stock.set(kind as Kind, fc.sample(payload, { seed, numRuns: PER_KIND }));
  }

  opening(random: Random, ticket: string): FactDraft {
    const payload = random.pick(this.#stock.get('session.opened')!) as object;
    return { kind: 'session.opened', ...payload, ticket } as FactDraft;
  }

  next(random: Random, role: WritingRole, known: readonly Fact[]): FactDraft {
    const strikable = known.filter((fact) => mayStrike(role, fact));
    if (strikable.length > 0 && random.next() < 0.06)
      return { kind: 'struck', fact: random.pick(strikable).id, reason: 'typing error' };
    const kinds = [...this.#stock.keys()].filter((kind) => kind !== 'session.opened' && mayWrite(role, kind));
    const often = kinds.filter((kind) => OFTEN.includes(kind));
    const kind = random.pick(often.length > 0 && random.next() < 0.6 ? often : kinds);
    return { kind, ...(random.pick(this.#stock.get(kind)!) as object) } as FactDraft;
  }
}
