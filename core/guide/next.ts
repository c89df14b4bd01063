/** Whose turn it is, and to do what: at most a few sentences a side, the most pressing first. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Scene } from './scene.ts';
import type { NextAction, Step } from './shape.ts';
import { cantedNow, fittedAsChosen, soleDue, unready } from './steps.ts';
import { boot, capital, degWords, listed, mmWords, percent } from './words.ts';

type Role = NextAction['role'];

const READY_TEXT: Record<string, string> = {
  footbed: 'footbed in, or none needed',
  shell: 'shell clearance settled',
  'cuff-neutral': 'cuff at its factory neutral, or kept as found',
};

function readying(scene: Scene, side: Side): NextAction[] {
  return unready(scene, side).map((item) => ({
    role: 'measuring' as const,
    side,
    do: 'ready.checked',
    item,
    text: `${boot(side)}: ${READY_TEXT[item] ?? item}.`,
  }));
}

function lookFirst(scene: Scene, side: Side): NextAction[] {
  const { now } = scene.sides[side];
  const act = (role: Role, kind: string, text: string): NextAction => ({ role, side, do: kind, text });
  if (now.missing.boot) return [act('desk', 'boot.described', now.missing.boot)];
  const { hotSpots } = scene.sides[side].fit.plan;
  // Clearance comes before the shell is settled; afterwards a spot left open is a problem.
  const spots = unready(scene, side).includes('shell') ? hotSpots.filter(({ worked }) => !worked) : [];
  const actions = [
    ...spots.map(({ spot }) =>
      act(
        'bench',
        'shell.worked',
        `${boot(side)}: clear the hot spot at: ${spot}. Stretch it, or punch or grind once the owner has agreed.`,
      ),
    ),
    ...readying(scene, side),
  ];
  if (now.missing.set && !unready(scene, side).includes('cuff-neutral'))
    actions.push(act('measuring', 'cuff.set', now.missing.set));
  if (now.missing.sole) actions.push(act('measuring', 'sole.set', now.missing.sole));
  return actions;
}

function outOfTravel(scene: Scene, side: Side): string {
  const { shortBy, biasMm, extension } = scene.sides[side].sight.cuff;
  const missing = shortBy
    ? `${degWords(Math.abs(shortBy.leanDeg))} of lean and ${mmWords(shortBy.pivotMm)} at the pivots are missing`
    : 'no move makes it better';
  return `${boot(side)}: this is the end of the travel, with a bias of ${mmWords(Math.abs(biasMm ?? 0))}; ${missing}. Accept it on record, extend the travel, or choose another boot.${extension ? ` ${extension.text}` : ''}`;
}

/** The cuff's own next act, once nothing blocks it. */
function cuffNext(scene: Scene, side: Side): NextAction {
  const { cuff } = scene.sides[side].sight;
  const act = (role: Role, kind: string, text: string): NextAction => ({ role, side, do: kind, text });
  if (cuff.reading?.stale)
    return act(
      'measuring',
      'cuff.read',
      `${boot(side)}: read the gaps again, since ${listed(cuff.reading.staleBecause)}.`,
    );
  switch (cuff.verdict) {
    case 'unread': {
      const expect = cuff.expected
        ? ` Expect ${mmWords(Math.max(0, cuff.expected.medialMm))} medial and ${mmWords(Math.max(0, cuff.expected.lateralMm))} lateral.`
        : '';
      return act(
        'measuring',
        'cuff.read',
        `${boot(side)}: read both gaps${cuff.rounds.length ? ' again' : ''}.${expect}`,
      );
    }
    case 'even': {
      // Whoever would rather leave it closes the cuff, and the move is no longer asked for.
      if (cuff.moveOn) return act('bench', 'cuff.set', cuff.move!.text);
      const chance = cuff.chanceEven === null ? '' : ` (${percent(cuff.chanceEven)} sure)`;
      return act(
        'measuring',
        'cuff.closed',
        `${boot(side)}: even${chance}. ${cuff.readAgain ?? 'Close the cuff.'}`,
      );
    }
    case 'too-narrow':
      return act(
        'measuring',
        'cuff.closed',
        `${boot(side)}: the cuff presses on both sides. It is too narrow for this leg: work the cuff, or choose another boot.`,
      );
    case 'out-of-travel':
      // Whoever agreed to a longer slot wants it cut.
      if (cuff.extension && !cuff.extension.before.length && cuff.extension.shortMm === 0)
        return act('bench', 'pivot.reworked', cuff.extension.text);
      return act('measuring', 'cuff.closed', outOfTravel(scene, side));
    case 'uneven':
    case 'contact':
      if (cuff.verdict === 'contact' && cuff.reading!.medialMm + cuff.reading!.lateralMm === 0)
        return act(
          'measuring',
          'cuff.read',
          `${boot(side)}: the leg presses on one side and touches the other. Loosen the buckles, seat the heel and read again; else the cuff is too narrow.`,
        );
      if (cuff.move && (Math.abs(cuff.move.medialMm) > 1e-6 || Math.abs(cuff.move.lateralMm) > 1e-6))
        return act('bench', 'cuff.set', cuff.move.text);
      return act(
        'measuring',
        'cuff.closed',
        `${boot(side)}: no mark brings the cuff nearer to even than a bias of ${mmWords(Math.abs(cuff.biasMm ?? 0))}. Accept it on record, or choose another boot.`,
      );
    default:
      return cuff.verdict satisfies never;
  }
}

function ofSide(scene: Scene, side: Side, step: Step): NextAction[] {
  if (step.status === 'done' || step.status === 'waived') return [];
  const first = lookFirst(scene, side);
  if (first.length) return first;
  const { reading } = scene.sides[side].sight.cuff;
  if ((!reading || reading.stale) && cantedNow(scene, side))
    return [
      {
        role: 'bench',
        side,
        do: 'sole.set',
        text: `${boot(side)}: bring the sole back to zero before the cuff is read (plates off, or a counter-wedge under the boot).`,
      },
    ];
  return [cuffNext(scene, side)];
}

/** What comes after the cuffs, on one side; empty while its step waits for something else. */
function laterNext(scene: Scene, side: Side, steps: readonly Step[]): NextAction[] {
  const act = (role: Role, kind: string, text: string): NextAction => ({ role, side, do: kind, text });
  const status = (name: Step['step']) => steps.find((s) => s.step === name && s.side === side)?.status;
  const open = (name: Step['step']) => status(name) === 'ready' || status(name) === 'stale';
  const stepOf = (name: Step['step']) => steps.find((s) => s.step === name && s.side === side)!;
  /** What a step says of itself; a stale one names what has changed, which is half a sentence. */
  const because = (name: Step['step'], again: string): string => {
    const { status: is, because: why } = stepOf(name);
    return is === 'stale' ? `${again} again, since ${listed(why)}.` : why.join(' ');
  };
  const { stance, sole, chosen, now } = scene.sides[side];
  if (open('stance')) {
    const wedge = stance.plan.nextWedgeDeg ?? 0;
    const on =
      wedge === 0
        ? 'flat'
        : `on a test wedge of ${degWords(Math.abs(wedge))}, thick edge ${wedge > 0 ? 'medial' : 'lateral'}`;
    const how = `read the knee ${on}`;
    const text = `${status('stance') === 'stale' ? '' : `${how}. `}${because('stance', how)}`;
    return [act('measuring', 'stance.read', `${boot(side)}: ${text}`)];
  }
  if (open('cant'))
    return [act('measuring', 'cant.chosen', `${boot(side)}: ${because('cant', 'choose the cant')}`)];
  if (status('sole') === 'blocked' && chosen.is === 'chosen' && !sole.before && soleDue(scene, side))
    return [act('bench', 'sole.measured', `${boot(side)}: measure the sole before any work.`)];
  if (!open('sole')) return [];
  if (chosen.is === 'chosen' && !fittedAsChosen(scene, side)) {
    if (!sole.before)
      return [act('bench', 'sole.measured', `${boot(side)}: measure the sole before any work.`)];
    if (!scene.log.live('work.agreed').length)
      return [
        {
          ...act(
            'desk',
            'work.agreed',
            'The owner agrees to the work on the soles first: it cannot be undone.',
          ),
        },
      ];
    return [
      act(
        'bench',
        'plate.fitted',
        `${boot(side)}: ${chosen.fact.method === 'plate' ? 'plates' : 'planing'} of ${degWords(Math.abs(chosen.fact.cantDeg))}, thick edge ${chosen.fact.cantDeg > 0 ? 'medial' : 'lateral'}.`,
      ),
    ];
  }
  if (now.sole?.state === 'test-wedge')
    return [act('bench', 'sole.set', `${boot(side)}: take the test wedge off.`)];
  return [act('bench', 'sole.measured', `${boot(side)}: ${because('sole', 'measure the finished sole')}`)];
}

export function nextOf(scene: Scene, steps: readonly Step[]): NextAction[] {
  const desk = (kind: string, text: string): NextAction => ({ role: 'desk', do: kind, text });
  if (!scene.opened) return [desk('session.opened', 'Open the session.')];
  if (steps.some((step) => step.step === 'handover' && (step.status === 'done' || step.status === 'waived')))
    return [];
  if (scene.health === 'stop')
    return [
      desk(
        'released.unfit',
        'The health answers say stop: give the boots back, and send the skier to a clinician.',
      ),
    ];
  const actions: NextAction[] = [];
  if (!scene.health)
    actions.push(
      desk('health.asked', 'Ask about pain, numbness, recent surgery or fracture, and keep the outcome.'),
    );
  for (const side of SIDES)
    actions.push(
      ...ofSide(
        scene,
        side,
        steps.find((s) => s.step === 'cuff' && s.side === side)!,
      ),
    );
  for (const side of SIDES) actions.push(...laterNext(scene, side, steps));
  for (const side of SIDES)
    if (
      scene.sides[side].wedgeIn &&
      scene.service !== 'full' &&
      !actions.some((a) => a.side === side && a.do === 'sole.set')
    )
      actions.push({ role: 'bench', side, do: 'sole.set', text: `${boot(side)}: take the test wedge off.` });
  for (const { step, status, because } of steps) {
    if (step === 'binding' && status === 'ready') actions.push(desk('binding.checked', because.join(' ')));
    if (step === 'handover' && status === 'ready')
      actions.push(desk('handed.over', `${capital('hand')} the boots over, with the cautions read.`));
  }
  return actions;
}
