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
  { side, when = 'after', toe, heel }: FactOf<'sole.measured'>,
): void {
  const text = (zone: typeof toe) => ({
    heightMedialMm: shown(zone.heightMedialMm, 2),
    heightLateralMm: shown(zone.heightLateralMm, 2),
    widthMm: shown(zone.widthMm, 2),
  });
  keepDraft(soleForm(session, side, when), { toe: text(toe), heel: text(heel) });
}

/** The cant is chosen and its sole is not finished, whoever it waits for. */
export const soleWaits = (session: Session, side: Side): boolean => {
  const cant = session.plan.steps.find((step) => step.step === 'cant' && step.side === side);
  const { step } = soleWork(session, side);
  return cant?.status === 'done' && step !== undefined && step.status !== 'done' && step.status !== 'waived';
};
