/** Taking someone in: what is typed, and the entries of the new session. */
import type { Payload } from '../../core/index.ts';
import { bootFacts, emptyBoots } from '../kit/boot/boots.ts';
import type { BootsDraft } from '../kit/boot/boots.ts';
import { isoNow } from '../kit/chance.ts';
import type { FactDraft } from '../kit/session.ts';
import { language } from '../kit/language.ts';
import { desk } from '../kit/words/desk.ts';
import { intakeWords } from '../kit/words/intake.ts';

export type Service = Payload<'session.opened'>['service'];
export type PromiseDay = keyof typeof desk.promiseDays;
type Health = Payload<'health.asked'>['outcome'];

/** What may be done that cannot be undone, and on whose word. */
export interface Agreement {
  /** Short names of `desk.agreeWhat`. */
  what: string[];
  by: 'owner' | 'guardian';
  warrantyTold: boolean;
  approval: string;
}
export const noAgreement = (youth = false): Agreement => ({
  what: [],
  by: youth ? 'guardian' : 'owner',
  warrantyTold: false,
  approval: '',
});

/** The entry of an agreement; none where nothing was agreed to. */
export function agreedFact({ what, by, warrantyTold, approval }: Agreement): FactDraft[] {
  if (what.length === 0) return [];
  const reference = approval.trim();
  return [
    {
      kind: 'work.agreed',
      irreversible: [...what],
      agreedBy: by,
      warrantyTold,
      ...(reference ? { makerApproval: reference } : {}),
    },
  ];
}

export interface IntakeDraft {
  /** Key of someone already in the people table; null for someone new. */
  ref: string | null;
  name: string;
  contact: string;
  language: string;
  service: Service | null;
  promiseDay: PromiseDay;
  promiseTime: string;
  /** The moment that the queue suggested, ms since 1970, where none of the days in words is its day. */
  promiseMs?: number | null;
  notes: string;
  health: Health | null;
  describeBoots: boolean;
  boots: BootsDraft;
  /** Model of the boots that were taken over from last time; null where they are typed. */
  asLast: string | null;
  youth: boolean;
  /** What was done to the boots before they came here this time. */
  before: string[];
  agreed: Agreement;
}

export const emptyIntake = (): IntakeDraft => ({
  ref: null,
  name: '',
  contact: '',
  language,
  service: null,
  promiseDay: 'tomorrow',
  promiseTime: '16:00',
  notes: '',
  health: null,
  describeBoots: true,
  boots: emptyBoots(),
  asLast: null,
  youth: false,
  before: [],
  agreed: noAgreement(),
});

const DAYS: Record<Exclude<PromiseDay, 'none'>, number> = { today: 0, tomorrow: 1, two: 2 };

/** The promised moment on this station's clock; null for no promise. */
export function promisedAt(day: PromiseDay, time: string, now: Date): string | null {
  const [hours, minutes] = /^(\d{1,2})[:.](\d{2})$/.exec(time.trim())?.slice(1).map(Number) ?? [];
  if (day === 'none' || hours === undefined || minutes === undefined || hours > 23 || minutes > 59)
    return null;
  return isoNow(new Date(now.getFullYear(), now.getMonth(), now.getDate() + DAYS[day], hours, minutes));
}

/** The first entries of a session, or one sentence that says what is still needed. */
export function intakeFacts(
  draft: IntakeDraft,
  ticket: string,
  clientRef: string,
  now: Date,
): { ok: true; facts: FactDraft[] } | { ok: false; problem: string } {
  if (draft.name.trim() === '') return { ok: false, problem: desk.nameMissing };
  if (draft.service === null) return { ok: false, problem: desk.serviceMissing };
  const boots = draft.describeBoots ? bootFacts(draft.boots) : { ok: true as const, facts: [] };
  if (!boots.ok) return boots;
  const promise =
    typeof draft.promiseMs === 'number'
      ? isoNow(new Date(draft.promiseMs))
      : promisedAt(draft.promiseDay, draft.promiseTime, now);
  if (draft.youth && draft.agreed.what.length > 0 && draft.agreed.by !== 'guardian')
    return { ok: false, problem: intakeWords.guardianMissing };
  const notes = [draft.before.length > 0 ? intakeWords.beforeNote(draft.before) : '', draft.notes.trim()]
    .filter(Boolean)
    .join('; ');
  const opened: FactDraft = {
    kind: 'session.opened',
    ticket,
    clientRef,
    service: draft.service,
    ...(promise ? { promisedAt: promise } : {}),
    ...(draft.youth ? { youth: true } : {}),
    ...(notes ? { notes } : {}),
  };
  const health: FactDraft[] = draft.health ? [{ kind: 'health.asked', outcome: draft.health }] : [];
  return { ok: true, facts: [opened, ...health, ...boots.facts, ...agreedFact(draft.agreed)] };
}

const COUNTER = 'fibula.ticket-counter';

/** The next free ticket of this desk, `<station number>-<counter>`, also while the server is away. */
export function nextTicket(station: number, taken: readonly string[]): string {
  const used = taken
    .filter((ticket) => ticket.startsWith(`${station}-`))
    .map((ticket) => Number(ticket.split('-')[1]) || 0);
  return `${station}-${Math.max(Number(localStorage.getItem(COUNTER) ?? 0), 0, ...used) + 1}`;
}

export const useTicket = (ticket: string): void => localStorage.setItem(COUNTER, ticket.split('-')[1] ?? '0');
