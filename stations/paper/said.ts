/** What of a plan belongs to which paper. */
import type { Caution, Plan, Side, StepName } from '../../core/index.ts';

const GRAVITY = { warning: 0, caution: 1, notice: 2 } as const;

/** Cautions of these steps, for this boot and the pair; each text once, the gravest first and then in the order of the steps. */
export function cautionsFor(plan: Plan, of: readonly StepName[], side?: Side): Caution[] {
  const fits = plan.cautions.filter(
    (each) => of.includes(each.step) && (side === undefined || each.side === undefined || each.side === side),
  );
  const place = ({ level, step }: Caution) => GRAVITY[level] * 10 + of.indexOf(step);
  const sorted = fits.toSorted((a, b) => place(a) - place(b));
  return sorted.filter((each, i) => sorted.findIndex(({ text }) => text === each.text) === i);
}

/** For who skis: of those about soles the notices; how to cut one stays in the shop. */
export const cautionsForSkier = (plan: Plan): Caution[] => [
  ...cautionsFor(plan, ['binding', 'handover', 'intake']),
  ...cautionsFor(plan, ['sole']).filter(({ level }) => level === 'notice'),
];

/** The step whose cautions go with what the bench is told to do. */
export const STEP_OF_ACT: Readonly<Record<string, StepName>> = {
  'cuff.set': 'cuff',
  'pivot.reworked': 'cuff',
  'shell.worked': 'ready',
  'ready.checked': 'ready',
  'inside.set': 'ready',
  'sole.set': 'sole',
  'sole.measured': 'sole',
  'plate.fitted': 'sole',
};
