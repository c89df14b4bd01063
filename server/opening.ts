/**
 * When the shop's doors are open and how many hands work at each station: what the forecast counts with. It changes no
 * session's numbers, so no session takes it along.
 */
import { z } from 'zod';
import { FLOOR_ROLES } from '../core/index.ts';
import type { FloorRole, OpenSpan } from '../core/index.ts';
import { momentOf } from './days.ts';
import type { Db } from './schema.ts';

const time = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$|^24:00$/, 'must be a time such as 09:00');
const Day = z
  .strictObject({ from: time, to: time })
  .refine(({ from, to }) => from < to, { path: ['to'], error: 'must be later than from' })
  .nullable();
const hands = z.int('must be a whole number').min(1, 'must be 1 to 20').max(20, 'must be 1 to 20');

export const OpeningBody = z.strictObject({
  hands: z.strictObject({ measuring: hands, bench: hands, desk: hands }),
  /** Monday to Sunday; null: closed. */
  days: z
    .array(Day)
    .length(7, 'must be seven days, Monday first')
    .refine((days) => days.some((day) => day !== null), { error: 'must be open on one day at least' }),
});

export interface Opening {
  readonly hands: Readonly<Record<FloorRole, number>>;
  readonly days: readonly ({ readonly from: string; readonly to: string } | null)[];
}

const USUAL = { from: '09:00', to: '18:00' };
/** Common practice, no source. */
export const DEFAULT_OPENING: Opening = {
  hands: Object.fromEntries(FLOOR_ROLES.map((role) => [role, 1])) as Record<FloorRole, number>,
  days: [USUAL, USUAL, USUAL, USUAL, USUAL, USUAL, null],
};

const KEY = 'shop.opening';
const DAY_MS = 86_400_000;
const minutesOf = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3));

export class Openings {
  readonly #get;
  readonly #set;
  readonly #timeZone: string;
  /** Days that were worked out, so that a year of them is worked out once. */
  readonly #days = new Map<number, OpenSpan | null>();

  constructor(db: Db, timeZone: string) {
    this.#get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
    this.#set = db.prepare<[string, string]>(
      'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    );
    this.#timeZone = timeZone;
  }

  get value(): Opening {
    const text = this.#get.get(KEY);
    const kept = text === undefined ? undefined : OpeningBody.safeParse(JSON.parse(text));
    return kept?.success ? kept.data : DEFAULT_OPENING;
  }

  set(opening: Opening): void {
    this.#set.run(KEY, JSON.stringify(opening));
    this.#days.clear();
  }

  /** The open doors of the days from one moment to another. */
  spans(fromMs: number, toMs: number): OpenSpan[] {
    const { days } = this.value;
    const spans: OpenSpan[] = [];
    // A day early and late: the shop's days begin at other moments than those of the world's clock.
    for (let day = Math.floor(fromMs / DAY_MS) - 1; day <= Math.floor(toMs / DAY_MS) + 1; day++) {
      let span = this.#days.get(day);
      if (span === undefined) {
        // 1 January 1970 was a Thursday.
        const open = days[(day + 3) % 7] ?? null;
        span = open && {
          fromMs: momentOf(day, minutesOf(open.from), this.#timeZone),
          toMs: momentOf(day, minutesOf(open.to), this.#timeZone),
        };
        this.#days.set(day, span);
      }
      if (span) spans.push(span);
    }
    return spans;
  }

  /** Forgets days that nobody asks for any more. */
  forget(beforeMs: number): void {
    for (const day of this.#days.keys()) if (day * DAY_MS < beforeMs) this.#days.delete(day);
  }
}
