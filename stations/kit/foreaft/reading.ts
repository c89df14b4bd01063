/** A fore-aft reading as it is typed over the one before, and the entry that it becomes. */
import type { Fact, FactOf, Plan, Side } from '../../../core/index.ts';
import { latest } from '../entries.ts';
import { parseNumber, shown } from '../numbers.ts';
import type { FactDraft } from '../session.ts';
import { faultIn } from '../within.ts';
import { foreAft } from '../words/foreaft.ts';

/** In the order of the picture's numbers; bounds as the record has them. */
export const PLACES = {
  boardHeelMm: { unit: 'mm', min: 0, max: 100 },
  boardToeMm: { unit: 'mm', min: 0, max: 100 },
  boardSpanMm: { unit: 'mm', min: 50, max: 400 },
  standHeelMm: { unit: 'mm', min: 0, max: 150 },
  standToeMm: { unit: 'mm', min: 0, max: 150 },
  skiStandMm: { unit: 'mm', min: 0, max: 150 },
  forwardLeanDeg: { unit: '°', min: -10, max: 45 },
} as const;
export type PlaceName = keyof typeof PLACES;
export const PLACE_NAMES = Object.keys(PLACES) as readonly PlaceName[];
const NEEDED = ['boardHeelMm', 'boardToeMm', 'boardSpanMm'] as const;

/** Only what a person typed. */
export type Edits = Partial<Record<PlaceName, string>>;

export interface Before {
  readonly read: FactOf<'foreaft.read'>;
  /** Something inside the boot has changed since: its numbers are shown, and have to be taken again. */
  readonly stale: boolean;
}

export function before(facts: readonly Fact[], plan: Plan, side: Side): Before | null {
  const read = latest(facts, 'foreaft.read', (fact) => fact.side === side);
  if (!read) return null;
  return { read, stale: plan.reasons[`sides.${side}.foreAft.rampDeg`]?.code === 'stale' };
}

export const numberOf = (was: Before | null, name: PlaceName): string => {
  const value = was?.read[name];
  return value === undefined ? '' : shown(value, 2);
};

/** What stands in the field: what was typed, else the last reading where it still holds. */
export const textOf = (was: Before | null, edits: Edits, name: PlaceName): string =>
  edits[name] ?? (was?.stale ? '' : numberOf(was, name));

export interface Said {
  /** Null when nothing differs from the record, or something needed is missing. */
  readonly draft: FactDraft | null;
  /** Why what was typed cannot be entered yet. */
  readonly problem: string | null;
}

export function said(was: Before | null, side: Side, edits: Edits): Said {
  const texts = PLACE_NAMES.map((name) => [name, textOf(was, edits, name).trim()] as const);
  const changed = texts.some(
    ([name, text]) => edits[name] !== undefined && text !== (was?.stale ? '' : numberOf(was, name)),
  );
  if (!changed) return { draft: null, problem: null };
  const typed = texts.filter(([, text]) => text !== '');
  for (const [name, text] of typed) {
    const wrong = faultIn(text, PLACES[name]);
    if (wrong) return { draft: null, problem: `${foreAft.boot(side)}, ${foreAft.places[name]}: ${wrong}` };
  }
  if (NEEDED.some((name) => !typed.some(([each]) => each === name)))
    return { draft: null, problem: `${foreAft.boot(side)}: ${foreAft.needed}` };
  const numbers = Object.fromEntries(typed.map(([name, text]) => [name, parseNumber(text)!]));
  return { draft: { kind: 'foreaft.read', side, ...numbers } as unknown as FactDraft, problem: null };
}
