/**
 * Facts in, plan out: a pure, deterministic function. Whoever has the same facts in the same order shows the same
 * numbers; what is not known is null, why stands in `reasons`, and what is wrong with the record in `problems`.
 */
import { SIDES } from '../frame.ts';
import { mayWrite } from '../record/admit.ts';
import { Log } from '../record/log.ts';
import { cautionsOf } from './cautions.ts';
import { nextOf } from './next.ts';
import { reasonsOf } from './reasons.ts';
import { sceneOf } from './scene.ts';
import type { Scene, SideScene } from './scene.ts';
import type { Course, Plan, Problem, SidePlan, Step } from './shape.ts';
import { handoverBlocks, stepsOf } from './steps.ts';
import { listed } from './words.ts';

/** The numbers of one side. */
export const sidePlan = ({ fit, sight, stance, sole, foreAft }: SideScene): SidePlan => ({
  fit: fit.plan,
  cuff: sight.cuff,
  stance: stance.plan,
  sole: sole.plan,
  foreAft: foreAft.plan,
});

/** The gate refuses these; a hand-written file may hold them. */
function wrongRoles(log: Log): Problem[] {
  return log.facts
    .filter((fact) => !mayWrite(fact.by.role, fact.kind))
    .map((fact) => ({
      fact: fact.id,
      code: 'wrong-role',
      text: `${fact.kind} ${fact.id} was written by ${fact.by.role}, which may not.`,
    }));
}

/** Boots that were handed over with something unfinished: they are gone, and the record says so. */
function handedOverEarly(scene: Scene, steps: readonly Step[]): Problem[] {
  const fact = scene.log.heads('handed.over').at(-1);
  if (!fact || !handoverBlocks(scene, steps).length) return [];
  const unfinished = steps.filter(
    ({ step, status }) => step !== 'handover' && status !== 'done' && status !== 'waived',
  );
  const what = [
    ...new Set(unfinished.map(({ step }) => `${step} unfinished`)),
    ...(SIDES.some((side) => scene.sides[side].wedgeIn) ? ['a test wedge in'] : []),
    ...(scene.problems.some(({ code }) => code === 'conflict') ? ['entries in dispute'] : []),
  ];
  return [
    { fact, code: 'handed-over-early', text: `The boots were handed over too early, with ${listed(what)}.` },
  ];
}

function courseOf(scene: Scene): Course {
  const steps = stepsOf(scene);
  return {
    steps,
    next: nextOf(scene, steps),
    problems: [...wrongRoles(scene.log), ...scene.problems, ...handedOverEarly(scene, steps)],
  };
}

/** A plan without its numbers, which is less work: for whoever shows many jobs and looks into none. */
export const course = (log: Log): Course => courseOf(sceneOf(log));

/**
 * @param facts the session's facts in their list's order; kinds that this program does not know are ignored
 * @returns everything that follows from them; lengths in mm, angles in degrees, signs as in docs/house.md
 */
export function plan(facts: readonly { readonly kind: string }[]): Plan {
  const scene = sceneOf(new Log(facts));
  const { steps, next, problems } = courseOf(scene);
  const sides = { left: sidePlan(scene.sides.left), right: sidePlan(scene.sides.right) };
  return {
    format: 'fibula-plan/1',
    sides,
    steps,
    next,
    cautions: cautionsOf(scene, steps),
    problems,
    reasons: reasonsOf(scene, sides),
  };
}
