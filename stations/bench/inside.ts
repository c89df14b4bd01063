/** What stands inside a boot: as it was set last, field by field, and a change of it as an entry. */
import type { Fact, Payload, Side } from '../../core/index.ts';
import { latest } from '../kit/entries.ts';
import { byThickEdge } from '../kit/knee.ts';
import type { Toward } from '../kit/knee.ts';
import { parseNumber, shown } from '../kit/numbers.ts';
import type { FactDraft } from '../kit/session.ts';

type Inside = Omit<Payload<'inside.set'>, 'side'>;

/** As typed: all numbers are still text. */
export interface InsideDraft {
  boardHeel: string;
  heelLift: string;
  cant: string;
  thick: Toward | null;
  leanPos: string;
  spoiler: 'in' | 'out' | null;
  spoilerWhich: string;
  liner: string;
  heated: 'yes' | 'no' | null;
}

/** The newest word on each field. */
export function insideNow(facts: readonly Fact[], side: Side): Inside {
  const field = <K extends keyof Inside>(name: K) =>
    latest(facts, 'inside.set', (fact) => fact.side === side && fact[name] !== undefined)?.[name];
  const all = {
    boardHeelMm: field('boardHeelMm'),
    heelLiftMm: field('heelLiftMm'),
    boardCantDeg: field('boardCantDeg'),
    forwardLeanPos: field('forwardLeanPos'),
    spoiler: field('spoiler'),
    liner: field('liner'),
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Inside;
}

const text = (value: number | undefined): string =>
  value === undefined ? '' : shown(value, 2).replace('−', '-');

export function insideDraft(now: Inside): InsideDraft {
  const { boardHeelMm, heelLiftMm, boardCantDeg: cant, forwardLeanPos, spoiler, liner } = now;
  return {
    boardHeel: text(boardHeelMm),
    heelLift: text(heelLiftMm),
    cant: cant === undefined ? '' : text(Math.abs(cant)),
    thick: !cant ? null : cant > 0 ? 'medial' : 'lateral',
    leanPos: typeof forwardLeanPos === 'number' ? text(forwardLeanPos) : (forwardLeanPos ?? ''),
    spoiler: spoiler === undefined ? null : spoiler === false ? 'out' : 'in',
    spoilerWhich: typeof spoiler === 'string' ? spoiler : '',
    liner: liner?.id ?? '',
    heated: liner ? (liner.heated ? 'yes' : 'no') : null,
  };
}

export type InsideChange =
  | { readonly is: 'none' }
  | { readonly is: 'lacks'; readonly what: 'liner' | 'cant' }
  | { readonly is: 'change'; readonly draft: FactDraft };

/** Marks are names, unless they are numbers. */
function position(typed: string): string | number | undefined {
  const number = parseNumber(typed);
  if (number !== null && Math.abs(number) <= 20) return number;
  return typed.trim() === '' ? undefined : typed.trim();
}

/** The fields that say something else than before; a field left empty says nothing. */
export function insideChange(typed: InsideDraft, now: Inside, side: Side): InsideChange {
  const cant = typed.cant.trim() === '' ? undefined : byThickEdge(typed.cant, typed.thick);
  if (cant === null && parseNumber(typed.cant) !== null) return { is: 'lacks', what: 'cant' };
  const named = typed.liner.trim() !== '';
  if (named !== (typed.heated !== null)) return { is: 'lacks', what: 'liner' };
  const number = (of: string) => parseNumber(of) ?? undefined;
  const wanted = {
    boardHeelMm: number(typed.boardHeel),
    heelLiftMm: number(typed.heelLift),
    boardCantDeg: cant ?? undefined,
    forwardLeanPos: position(typed.leanPos),
    spoiler:
      typed.spoiler === null ? undefined : typed.spoiler === 'in' && (typed.spoilerWhich.trim() || true),
    liner: named ? { id: typed.liner.trim(), heated: typed.heated === 'yes' } : undefined,
  };
  const was: Readonly<Record<string, unknown>> = now;
  const changed = Object.entries(wanted).filter(
    ([field, value]) => value !== undefined && JSON.stringify(value) !== JSON.stringify(was[field]),
  );
  if (changed.length === 0) return { is: 'none' };
  return { is: 'change', draft: { kind: 'inside.set', side, ...Object.fromEntries(changed) } as FactDraft };
}
