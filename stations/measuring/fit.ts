/** A foot as it is looked at: what was recorded, what is typed over it, and the entry that says the difference. */
import type { Fact, Plan, Side } from '../../core/index.ts';
import { LANDMARK_NAMES } from '../kit/drawing/foot.ts';
import { latest, logOf } from '../kit/entries.ts';
import { parseNumber, shown } from '../kit/numbers.ts';
import type { FactDraft } from '../kit/session.ts';
import { faultIn } from '../kit/within.ts';
import { fit } from '../kit/words/foot.ts';

/** Bounds as the record has them. */
export const NUMBERS = {
  footLengthMm: { unit: 'mm', min: 120, max: 380 },
  footWidthMm: { unit: 'mm', min: 40, max: 160 },
  shellGapMm: { unit: 'mm', min: 0, max: 60 },
  calfGirthMm: { unit: 'mm', min: 150, max: 650 },
  legLengthMm: { unit: 'mm', min: 300, max: 1400 },
  toeOutDeg: { unit: '°', min: -45, max: 60 },
  dorsiflexionBentDeg: { unit: '°', min: -30, max: 70 },
  dorsiflexionStraightDeg: { unit: '°', min: -30, max: 70 },
} as const;
export const WORDS_OR_ANGLE = ['forefoot', 'rearfoot', 'shinCurve'] as const;
export const TEXTS = ['arch', 'note'] as const;

export type NumberName = keyof typeof NUMBERS;
export type TextName = (typeof WORDS_OR_ANGLE)[number] | (typeof TEXTS)[number];
export type FieldName = NumberName | TextName;
export type SpotState = 'free' | 'open' | 'worked';

/** Only what a person changed: what was recorded in the meantime is never written over by what stood there before. */
export interface FootEdits {
  readonly text: Partial<Record<FieldName, string>>;
  readonly spots: Record<string, boolean>;
}
export const noEdits = (): FootEdits => ({ text: {}, spots: {} });

const asText = (value: unknown): string =>
  typeof value === 'number' ? shown(value, 2) : typeof value === 'string' ? value : '';

/** What stands on record of one field, as it would be typed. */
export const recorded = (facts: readonly Fact[], side: Side, name: FieldName): string =>
  asText(latest(facts, 'assessed', (fact) => fact.side === side && fact[name] !== undefined)?.[name]);

/** A spot by the name on the map, however somebody spelled it. */
const onMap = (spot: string): string =>
  LANDMARK_NAMES.find((name) => name.toLowerCase() === spot.toLowerCase()) ?? spot;

/** Where the shell presses by the record, and where the bench has worked it. */
export function spotsRecorded(
  facts: readonly Fact[],
  plan: Plan,
  side: Side,
): ReadonlyMap<string, Exclude<SpotState, 'free'>> {
  const worked = logOf(facts)
    .live('shell.worked')
    .filter((fact) => fact.side === side)
    .map((fact) => [onMap(fact.spot), 'worked'] as const);
  const noted = plan.sides[side].fit.hotSpots.map(
    ({ spot, worked: done }) => [onMap(spot), done ? 'worked' : 'open'] as const,
  );
  return new Map([...worked, ...noted]);
}

/** The same with what was touched since; a worked spot that is touched presses again. */
export function spotsNow(before: ReadonlyMap<string, SpotState>, edits: FootEdits): Map<string, SpotState> {
  const now = new Map<string, SpotState>(before);
  for (const [spot, presses] of Object.entries(edits.spots))
    now.set(spot, presses ? 'open' : before.get(spot) === 'worked' ? 'worked' : 'free');
  return now;
}

const openOf = (spots: ReadonlyMap<string, SpotState>): string[] =>
  [...spots].flatMap(([spot, state]) => (state === 'open' ? [spot] : []));

export interface FootSaid {
  /** Null when nothing differs from the record. */
  readonly draft: FactDraft | null;
  /** The first field that cannot be entered as it is typed. */
  readonly problem: string | null;
}

/** The entry of one foot. A field that was emptied says nothing: the record keeps what it has. */
export function footSaid(facts: readonly Fact[], plan: Plan, side: Side, edits: FootEdits): FootSaid {
  const said: Record<string, unknown> = {};
  let problem: string | null = null;
  for (const [name, typed] of Object.entries(edits.text) as [FieldName, string][]) {
    const text = typed.trim();
    const before = recorded(facts, side, name);
    if (text === '' || text === before) continue;
    if (name in NUMBERS) {
      if (parseNumber(text) !== null && parseNumber(text) === parseNumber(before)) continue;
      const wrong = faultIn(text, NUMBERS[name as NumberName]);
      if (wrong) problem ??= `${fit.foot(side)}, ${fit[name]}: ${wrong}`;
      else said[name] = parseNumber(text);
    } else {
      said[name] = WORDS_OR_ANGLE.includes(name as never) ? (parseNumber(text) ?? text) : text;
    }
  }
  const before = spotsRecorded(facts, plan, side);
  const [was, now] = [openOf(before), openOf(spotsNow(before, edits))];
  // What the bench has worked is left out: noting it again would say that it presses again.
  if (was.length !== now.length || now.some((spot) => !was.includes(spot))) said['hotSpots'] = now;
  const empty = Object.keys(said).length === 0;
  return { draft: empty ? null : ({ kind: 'assessed', side, ...said } as FactDraft), problem };
}
