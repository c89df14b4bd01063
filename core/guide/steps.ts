/** Status of each step, derived and never stored, with the reason in words. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { FactOf } from '../record/facts.ts';
import { READY_ITEMS } from '../record/kinds.ts';
import { slot } from '../record/slots.ts';
import { lacking } from './cant.ts';
import { isReady } from './readings.ts';
import type { Scene } from './scene.ts';
import type { Step, StepName, StepStatus } from './shape.ts';
import { cantWords, capital, degWords, listed, mmWords } from './words.ts';

type Outcome = { readonly status: StepStatus; readonly because: readonly string[] };
const outcome = (status: StepStatus, ...because: string[]): Outcome => ({ status, because });

/** The three items that a boot is not ready without, as far as they are unsettled. */
export const unready = (scene: Scene, side: Side): string[] =>
  READY_ITEMS.filter((item) => !isReady(scene.log.now(slot.ready(side, item))));

/** What keeps a cuff from being read, in words; empty when nothing does. */
export function cuffBlocks(scene: Scene, side: Side): string[] {
  const { now } = scene.sides[side];
  const because: string[] = [];
  if (scene.health === 'stop') because.push('The health answers say stop: nothing is done to these boots.');
  if (now.missing.boot) because.push(now.missing.boot);
  const open = unready(scene, side);
  if (open.length) because.push(`${capital(side)} boot is not ready: ${listed(open)}.`);
  if (now.missing.boot) return because;
  if (now.missing.set) because.push(now.missing.set);
  if (now.missing.sole) because.push(now.missing.sole);
  return because;
}

/** A canted sole stops the next cuff reading, and nothing that was read before. */
export const cantedNow = (scene: Scene, side: Side): boolean =>
  (scene.sides[side].now.sole?.cantDeg ?? 0) !== 0;

function intake(scene: Scene): Outcome {
  const missing = [
    ...(scene.opened ? [] : ['The session is not opened.']),
    ...SIDES.flatMap((side) => scene.sides[side].now.missing.boot ?? []),
    ...(scene.health ? [] : ['Ask about health, and keep the outcome.']),
  ];
  if (scene.health === 'stop') return outcome('blocked', 'The health answers say stop.');
  if (missing.length) return outcome('ready', ...missing);
  return scene.health === 'refer'
    ? outcome('done', 'The health answers say refer: a clinician sees this skier before the work goes on.')
    : outcome('done');
}

/** What may have changed since last time; until it is asked, the old geometry is a prior and no more. */
const RECHECK =
  'A recheck starts as found: ask what changed since (pivots, screws, plates, sole wear, liner, footbed, injury, weight).';

function ready(scene: Scene, side: Side): Outcome {
  const { boot } = scene.sides[side].now.missing;
  if (boot) return outcome('blocked', boot);
  const open = unready(scene, side);
  const asked = scene.service === 'recheck' ? [RECHECK] : [];
  return open.length ? outcome('ready', `To settle: ${listed(open)}.`, ...asked) : outcome('done', ...asked);
}

function cuff(scene: Scene, side: Side): Outcome {
  const { closing, sight } = scene.sides[side];
  if (closing.is === 'closed')
    return closing.decision === 'other-boot'
      ? outcome('waived', `The ${side} cuff is given up for another boot.`)
      : outcome(
          'done',
          closing.decision === 'even'
            ? `${capital(side)} cuff even.`
            : `${capital(side)} cuff accepted with what is left over.`,
        );
  const blocks = cuffBlocks(scene, side);
  if (blocks.length) return outcome('blocked', ...blocks);
  const { reading, verdict, move, biasMm } = sight.cuff;
  // A reading is due, and would be taken over a cant: that comes first.
  if ((!reading || reading.stale) && cantedNow(scene, side))
    return outcome(
      'blocked',
      `The ${side} sole has a cant of ${degWords(scene.sides[side].now.sole!.cantDeg)}: bring it to zero before the cuff is read.`,
    );
  if (closing.is === 'reopened') return outcome('stale', ...closing.because);
  if (reading?.stale) return outcome('stale', ...reading.staleBecause);
  switch (verdict) {
    case 'unread':
      return outcome('ready', `Read the ${side} gaps.`);
    case 'even':
      return sight.cuff.moveOn
        ? outcome('ready', sight.cuff.moveOn)
        : outcome('ready', `The ${side} gaps are even: close the cuff.`);
    case 'too-narrow':
      return outcome('ready', `The ${side} cuff presses on both sides: it is too narrow for the leg.`);
    case 'out-of-travel':
      return outcome(
        'ready',
        `The ${side} cuff is at the end of its travel with a bias of ${mmWords(Math.abs(biasMm ?? 0))}.`,
      );
    case 'uneven':
    case 'contact':
      return move && (Math.abs(move.medialMm) > 1e-6 || Math.abs(move.lateralMm) > 1e-6)
        ? outcome('waiting', `The bench moves the pivots of the ${side} cuff.`)
        : outcome('ready', `No mark brings the ${side} cuff nearer to even.`);
    default:
      return verdict satisfies never;
  }
}

const BOTH_CUFFS_FIRST = 'Both cuffs are closed first: a cant over open cuffs only hides the fault.';

function stanceStep(scene: Scene, side: Side): Outcome {
  if (!scene.cuffsClosed) return outcome('blocked', BOTH_CUFFS_FIRST);
  const { stance, chosen } = scene.sides[side];
  if (chosen.is === 'chosen') return outcome('done');
  if (stance.staleBecause.length) return outcome('stale', ...stance.staleBecause);
  if (stance.plan.verdict === 'unread') return outcome('ready', `Read where the ${side} knee stands, flat.`);
  if (stance.plan.verdict === 'contradictory')
    return outcome('ready', `The ${side} knee's readings contradict each other.`);
  const missing = lacking(stance);
  return missing.length ? outcome('ready', `Still to do: ${listed(missing)}.`) : outcome('done');
}

function cantStep(scene: Scene, side: Side): Outcome {
  if (!scene.cuffsClosed) return outcome('blocked', BOTH_CUFFS_FIRST);
  const { chosen, stance } = scene.sides[side];
  if (chosen.is === 'chosen')
    return outcome('done', `${capital(side)} cant chosen: ${cantWords(chosen.fact.cantDeg)}.`);
  if (chosen.is === 'stale') return outcome('stale', ...chosen.because);
  if (stanceStep(scene, side).status !== 'done') return outcome('blocked', `The ${side} stance comes first.`);
  const { verdict, roundedDeg, thickEdge } = stance.plan;
  switch (verdict) {
    case 'refer':
      return outcome(
        'ready',
        `The ${side} knee asks for more than a plate may give: refer on (cuff again, footbed, clinician), or choose none, on record.`,
      );
    case 'flat-enough':
      return outcome('ready', `The ${side} knee stands well on a flat sole: choose none.`);
    case 'cant':
      return outcome(
        'ready',
        `Choose ${degWords(Math.abs(roundedDeg!))}, thick edge ${thickEdge}.${stance.secondLook ? ' A second technician looks first.' : ''}`,
      );
    case 'blocked':
    case 'unread':
    case 'contradictory':
      return outcome('blocked', `The ${side} stance comes first.`);
    default:
      return verdict satisfies never;
  }
}

/** Is there work to do under this boot, or was any done? */
export const soleDue = (scene: Scene, side: Side): boolean => {
  const { soleTouched, chosen } = scene.sides[side];
  return (
    soleTouched || (chosen.is === 'chosen' && (chosen.fact.cantDeg !== 0 || Boolean(chosen.fact.foreAftDeg)))
  );
};

/** Does what is fitted make the cant that was chosen? */
export function fittedAsChosen(scene: Scene, side: Side): boolean {
  const { chosen, sole } = scene.sides[side];
  if (chosen.is !== 'chosen' || chosen.fact.cantDeg === 0) return true;
  return sole.fitted !== null && Math.abs(sole.fitted.cantDeg - chosen.fact.cantDeg) < 1e-9;
}

function soleStep(scene: Scene, side: Side): Outcome {
  const { sole, wedgeIn } = scene.sides[side];
  if (scene.service === 'full' && cantStep(scene, side).status !== 'done')
    return outcome('blocked', `The ${side} cant comes first.`);
  if (!soleDue(scene, side)) return outcome('done', `Nothing was done under the ${side} boot.`);
  if (wedgeIn && scene.service !== 'full')
    return outcome('ready', `The test wedge is still under the ${side} boot.`);
  if (sole.withheld.length && !fittedAsChosen(scene, side)) return outcome('blocked', ...sole.withheld);
  if (!fittedAsChosen(scene, side)) return outcome('ready', `Make the ${side} sole's cant.`);
  if (sole.staleBecause.length) return outcome('stale', ...sole.staleBecause);
  if (!sole.after) return outcome('ready', `Measure the finished ${side} sole against its standard.`);
  if (sole.plan.conforms === false)
    return outcome('blocked', `The finished ${side} sole is out of its limits: no pickup.`);
  return outcome(
    'done',
    ...(sole.plan.unchecked.length
      ? [`Not checked, since nobody entered a limit: ${listed(sole.plan.unchecked)}.`]
      : []),
  );
}

function binding(scene: Scene, before: readonly Step[]): Outcome {
  const state = scene.log.now('binding.checked');
  if (state.is === 'one') {
    const { outcome: result } = state.value as FactOf<'binding.checked'>;
    if (result === 'passed') return outcome('done');
    return result === 'declined'
      ? outcome('waived', 'The binding check was declined, on record.')
      : outcome('waiting', 'The skis are out for inspection.');
  }
  return before.some((step) => step.step === 'sole' && step.status !== 'done')
    ? outcome('blocked', 'The sole comes first.')
    : outcome('ready', 'A changed sole goes to a certified binding technician before use.');
}

/** What stands between these boots and their owner, in words. */
export function handoverBlocks(scene: Scene, before: readonly Step[]): string[] {
  const because = before
    .filter((step) => step.step !== 'handover' && step.status !== 'done' && step.status !== 'waived')
    .map((step) => `${capital(step.step)}${step.side ? ` ${step.side}` : ''} is not finished.`);
  for (const side of SIDES)
    if (scene.sides[side].wedgeIn) because.push(`The test wedge is still under the ${side} boot.`);
  const disputes = scene.problems.filter(({ code }) => code === 'conflict');
  return [...because, ...disputes.map(({ text }) => text)];
}

/** Said by somebody and not struck; two who said it differently have both said it. */
const said = (scene: Scene, name: string): boolean => ['one', 'conflict'].includes(scene.log.now(name).is);

function handover(scene: Scene, before: readonly Step[]): Outcome {
  if (said(scene, 'handed.over')) return outcome('done');
  if (said(scene, 'released.unfit')) return outcome('waived', 'The boots went out unfit, on record.');
  const because = handoverBlocks(scene, before);
  return because.length ? outcome('blocked', ...because) : outcome('ready', 'Ready to be handed over.');
}

/** Steps of this session in order. A session for cuffs has sole and binding only if its sole was touched. */
export function stepsOf(scene: Scene): Step[] {
  const steps: Step[] = [];
  const once = (step: StepName, result: Outcome): void => void steps.push({ step, ...result });
  const perSide = (step: StepName, of: (side: Side) => Outcome): void => {
    for (const side of SIDES) steps.push({ step, side, ...of(side) });
  };
  const full = scene.service === 'full';
  const touched = SIDES.some((side) => scene.sides[side].soleTouched);
  once('intake', intake(scene));
  perSide('ready', (side) => ready(scene, side));
  perSide('cuff', (side) => cuff(scene, side));
  if (full) {
    perSide('stance', (side) => stanceStep(scene, side));
    perSide('cant', (side) => cantStep(scene, side));
  }
  if (full || touched) perSide('sole', (side) => soleStep(scene, side));
  // An untouched sole changes nothing in the binding, whatever was looked at.
  if (SIDES.some((side) => soleDue(scene, side))) once('binding', binding(scene, steps));
  once('handover', handover(scene, steps));
  return steps;
}
