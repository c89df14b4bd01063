/**
 * What the server writes into a session by its own hand: the shop's settings when it is opened, and when a boot is
 * described how such a boot answers and where that leg stood before. Each once, behind the entry that calls for it,
 * in the same commit; what is learned later changes nothing there.
 */
import { createHash } from 'node:crypto';
import { basisFor, carried, Log, parseStrict, SIDES, settingsOf } from '../core/index.ts';
import type { Fact, FactOf } from '../core/index.ts';
import type { Learned } from './learned.ts';
import type { Legs } from './legs.ts';
import { SERVER } from './shop-settings.ts';
import type { ShopSettings } from './shop-settings.ts';

export interface OwnFactsOutside {
  readonly settings: Pick<ShopSettings, 'pinned'>;
  readonly learned: Pick<Learned, 'responseOf'>;
  readonly legs: Pick<Legs, 'of'>;
  now(): number;
  /** What was learned could not be read: the boot is taken without it. */
  failed(error: unknown): void;
}

/** Bounds of the fields in `core/record/kinds.ts`: a posterior beyond them is a record to be looked at, not a number. */
const within = (value: number, min: number, max: number, digits: number): number =>
  Number(Math.min(max, Math.max(min, value)).toFixed(digits));

export class OwnFacts {
  readonly #outside: OwnFactsOutside;

  constructor(outside: OwnFactsOutside) {
    this.#outside = outside;
  }

  /**
   * What belongs behind `added`, entries that were let in just now.
   * @param facts all of the session, `added` among them
   */
  behind(session: string, added: readonly Fact[], facts: () => readonly Fact[]): Fact[] {
    const own = added.some(({ kind }) => kind === 'session.opened')
      ? [...this.#outside.settings.pinned()]
      : [];
    const described = added.filter((fact) => fact.kind === 'boot.described');
    for (const side of SIDES) {
      // Of several that came together the last one stands.
      const boot = described.findLast((fact) => fact.side === side);
      if (boot) own.push(...this.#learnedOf(session, boot, [...facts(), ...own]));
    }
    return own;
  }

  #learnedOf(session: string, boot: FactOf<'boot.described'>, facts: readonly Fact[]): readonly Fact[] {
    try {
      return this.#ofBoot(session, boot, facts);
    } catch (error) {
      this.#outside.failed(error);
      return [];
    }
  }

  #ofBoot(session: string, boot: FactOf<'boot.described'>, facts: readonly Fact[]): Fact[] {
    const { side } = boot;
    const log = new Log(facts);
    const settings = settingsOf(log);
    const fact = (kind: 'response.known' | 'leg.known', values: object): Fact =>
      this.#fact(kind, session, boot, basisFor(facts, { kind, side }), values);
    const isThere = (kind: 'response.known' | 'leg.known') =>
      facts.some((one) => one.kind === kind && one.side === side);

    const response =
      this.#outside.learned.responseOf(session, boot, settings) ??
      // What was pinned for another boot must not stand for this one.
      (isThere('response.known') ? { k: 1, sd: settings.responsePriorSd, pairs: 0 } : null);
    const leg =
      this.#legFor(session, boot, facts) ?? (isThere('leg.known') ? { mLegMm: 0, sdMm: 100 } : null);
    return [
      ...(response
        ? [
            fact('response.known', {
              k: within(response.k, 0.1, 3, 4),
              sd: within(response.sd, 0.001, 1, 4),
              pairs: response.pairs,
            }),
          ]
        : []),
      ...(leg
        ? [
            fact('leg.known', {
              mLegMm: within(leg.mLegMm, -80, 80, 3),
              sdMm: within(leg.sdMm, 0.01, 100, 3),
              ...('line' in leg && leg.line
                ? {
                    line: {
                      offsetMm: within(leg.line.offsetMm, -60, 60, 3),
                      angleDeg: within(leg.line.angleDeg, -30, 30, 3),
                    },
                  }
                : {}),
            }),
          ]
        : []),
    ];
  }

  #legFor(session: string, boot: FactOf<'boot.described'>, facts: readonly Fact[]) {
    const opened = facts.find((one) => one.kind === 'session.opened');
    if (opened?.kind !== 'session.opened') return null;
    const now = this.#outside.now();
    const earlier = this.#outside.legs
      .of(opened.clientRef, session)
      .flatMap(({ side, leg, openedMs, ...row }) =>
        leg && side === boot.side ? [{ ...row, ...leg, agoMs: Math.max(0, now - openedMs) }] : [],
      );
    return carried(earlier, boot);
  }

  /** Its id follows from the entry that calls for it: offered a second time, it is there already. */
  #fact(
    kind: 'response.known' | 'leg.known',
    session: string,
    { id, side }: FactOf<'boot.described'>,
    basis: readonly string[],
    values: object,
  ): Fact {
    const name = createHash('sha256').update(`${session} ${id} ${kind}`).digest('hex').slice(0, 24);
    const parsed = parseStrict({
      id: `s${name}`,
      kind,
      at: new Date(this.#outside.now()).toISOString(),
      by: { station: SERVER.station, role: 'server' },
      basis,
      side,
      ...values,
    });
    if (!parsed.ok) throw new Error(`What was learned makes no fact: ${JSON.stringify(parsed)}`);
    return parsed.fact;
  }
}
