/** Where the work under one boot stands: what was chosen, what is fitted, what was measured. */
import type { FactOf, Side, Step } from '../../core/index.ts';
import { keepDraft } from '../kit/drafts.svelte.ts';
import { latest } from '../kit/entries.ts';
import { shown } from '../kit/numbers.ts';
import type { Session } from '../kit/session.ts';

export interface SoleWork {
  readonly chosen: FactOf<'cant.chosen'> | undefined;
  readonly fitted: FactOf<'plate.fitted'> | undefined;
  readonly before: FactOf<'sole.measured'> | undefined;
  readonly after: FactOf<'sole.measured'> | undefined;
  /** The chosen cant is not under the boot yet. */
  readonly toMake: boolean;
  readonly step: Step | undefined;
}

export function soleWork({ facts, plan }: Session, side: Side): SoleWork {
  const measured = (when: 'before' | 'after') =>
    latest(facts, 'sole.measured', (fact) => fact.side === side && (fact.when ?? 'after') === when);
  const chosen = latest(facts, 'cant.chosen', (fact) => fact.side === side);
  const fitted = latest(facts, 'plate.fitted', (fact) => fact.side === side);
  const wanted = chosen?.cantDeg ?? 0;
  return {
    chosen,
    fitted,
    before: measured('before'),
    after: measured('after'),
    toMake: wanted !== 0 && (!fitted || Math.abs(fitted.cantDeg - wanted) > 1e-9),
    step: plan.steps.find((step) => step.step === 'sole' && step.side === side),
  };
}

/** The form of one sole at one time, by which what is typed in it is kept. */
export const soleForm = (session: string, side: Side, when: 'before' | 'after'): string =>
  `sole.${session}.${side}.${when}`;

/** A sole that was taken back stands in its form again, to be corrected. */
export function typeAgain(
  session: string,
  { side, when = 'after', toe, heel, soleHeightMm }: FactOf<'sole.measured'>,
): void {
  const text = (zone: typeof toe) => ({
    heightMedialMm: shown(zone.heightMedialMm, 2),
    heightLateralMm: shown(zone.heightLateralMm, 2),
    widthMm: shown(zone.widthMm, 2),
  });
  const soleHeight = soleHeightMm === undefined ? '' : shown(soleHeightMm, 2);
  keepDraft(soleForm(session, side, when), { toe: text(toe), heel: text(heel), soleHeight });
}

/** Width of each bearing zone: as described, as measured, or nothing better than the other's; a picture only. */
export function zoneWidths(session: Session, side: Side): Readonly<Record<'toe' | 'heel', number>> {
  const boot = latest(session.facts, 'boot.described', (fact) => fact.side === side);
  const { before, after } = soleWork(session, side);
  const measured = before ?? after;
  const toe = boot?.soleWidthToeMm ?? measured?.toe.widthMm;
  const heel = boot?.soleWidthHeelMm ?? measured?.heel.widthMm;
  return { toe: toe ?? heel ?? ADULT_SOLE_MM, heel: heel ?? toe ?? ADULT_SOLE_MM };
}
/** Width of an adult alpine sole; from memory, and only how wide a picture is. */
const ADULT_SOLE_MM = 69;

/** The cant is chosen and its sole is not finished, whoever it waits for. */
export const soleWaits = (session: Session, side: Side): boolean => {
  const cant = session.plan.steps.find((step) => step.step === 'cant' && step.side === side);
  const { step } = soleWork(session, side);
  return cant?.status === 'done' && step !== undefined && step.status !== 'done' && step.status !== 'waived';
};
