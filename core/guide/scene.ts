/** One look at the whole session: what steps, next actions and cautions are derived from. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Fact, FactOf } from '../record/facts.ts';
import { SERVICES } from '../record/kinds.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import type { SoleValue } from '../record/slots.ts';
import { closingOf } from './closing.ts';
import type { Closing } from './closing.ts';
import { cuffOf } from './cuff.ts';
import type { CuffSight } from './cuff.ts';
import type { Problem } from './shape.ts';
import { conflict, settingsOf, sideNow } from './side.ts';
import type { SideNow } from './side.ts';

export interface SideScene {
  readonly now: SideNow;
  readonly sight: CuffSight;
  readonly closing: Closing;
  /** A plate, a planing, or any change from the cant as brought. */
  readonly soleTouched: boolean;
  readonly wedgeIn: boolean;
}

export interface Scene {
  readonly log: Log;
  readonly settings: Settings;
  readonly opened: FactOf<'session.opened'> | null;
  readonly service: (typeof SERVICES)[number];
  readonly health: FactOf<'health.asked'>['outcome'] | null;
  readonly sides: Readonly<Record<Side, SideScene>>;
  readonly problems: readonly Problem[];
}

function touched(log: Log, side: Side, sole: SoleValue | null): boolean {
  if (log.live('plate.fitted').some((fact) => fact.side === side)) return true;
  const set = log.live('sole.set').filter((fact) => fact.side === side);
  const brought = set.find((fact) => fact.state === 'as-brought')?.cantDeg;
  if (brought === undefined)
    return set.some((fact) => fact.state === 'neutralised' || fact.state === 'fitted');
  return sole !== null && sole.cantDeg !== brought;
}

function oneSide(log: Log, side: Side, settings: Settings): { scene: SideScene; problems: Problem[] } {
  const now = sideNow(log, side);
  const sight = cuffOf(log, now, settings);
  const { closing, problems } = closingOf(log, side, sight.cuff);
  // A sole that is canted now stops a reading to come; a test wedge or fitted plate is another stage's.
  const scene = {
    now,
    sight,
    closing,
    soleTouched: touched(log, side, now.sole),
    wedgeIn: now.sole?.state === 'test-wedge',
  };
  return { scene, problems: [...now.problems, ...sight.problems, ...problems] };
}

/** Slots of the session itself whose heads may disagree. */
const SESSION_SLOTS = {
  service: 'The service',
  'health.asked': 'The health question',
  'binding.checked': 'The binding check',
};

function ofSession(log: Log, opened: readonly Fact[]): Problem[] {
  const problems: Problem[] = log.badStrikes.map(({ fact, why }) => ({
    fact: fact.id,
    code: 'bad-strike',
    text: `Strike ${fact.id} does nothing: ${why}.`,
  }));
  if (log.facts.length && !opened.length)
    problems.push({ code: 'not-opened', text: 'The session was never opened.' });
  for (const extra of opened.slice(1))
    problems.push({
      fact: extra.id,
      code: 'opened-twice',
      text: `The session is opened a second time by ${extra.id}.`,
    });
  if (opened[0] && log.facts[0] !== opened[0])
    problems.push({
      fact: opened[0].id,
      code: 'opened-late',
      text: 'Facts stand before the opening of the session.',
    });
  for (const [name, what] of Object.entries(SESSION_SLOTS)) {
    const state = log.now(name);
    if (state.is === 'conflict') problems.push(conflict(undefined, what, state.facts));
  }
  return problems;
}

function readyProblems(log: Log, side: Side): Problem[] {
  return log.slots(slot.ready(side, '')).flatMap((name): Problem[] => {
    const state = log.now(name);
    const item = name.slice(slot.ready(side, '').length);
    if (state.is === 'conflict') return [conflict(side, `${item} of the ${side} boot`, state.facts)];
    if (state.is === 'one' && (state.value as { outcome: string }).outcome === 'open')
      return [
        {
          fact: state.facts.at(-1)!,
          side,
          code: 'item-open',
          text: `The ${side} boot: ${item} is still to do.`,
        },
      ];
    return [];
  });
}

/** What cannot be undone, done without the owner's agreement on record. */
function notAgreed(log: Log): Problem[] {
  const agreed = log.live('work.agreed');
  const irreversible = [
    ...log.live('pivot.reworked'),
    ...log.live('plate.fitted').filter((fact) => fact.method === 'plane'),
    ...log.live('shell.worked').filter((fact) => fact.method !== 'stretch'),
  ];
  return irreversible
    .filter((fact) => !agreed.some((agreement) => log.knew(fact.id, agreement.id)))
    .map((fact) => ({
      fact: fact.id,
      side: fact.side,
      code: 'not-agreed',
      text: `The ${fact.side} boot: ${fact.kind} ${fact.id} cannot be undone, and no agreement of the owner stood on record before it.`,
    }));
}

const isService = (value: unknown): value is Scene['service'] =>
  (SERVICES as readonly unknown[]).includes(value);

export function sceneOf(log: Log): Scene {
  const settings = settingsOf(log);
  const opened = log.live('session.opened');
  const service = log.now('service');
  const health = log.now('health.asked');
  const left = oneSide(log, 'left', settings);
  const right = oneSide(log, 'right', settings);
  return {
    log,
    settings,
    opened: opened[0] ?? null,
    service: service.is === 'one' && isService(service.value) ? service.value : 'cuffs',
    health: health.is === 'one' ? (health.value as FactOf<'health.asked'>).outcome : null,
    sides: { left: left.scene, right: right.scene },
    problems: [
      ...ofSession(log, opened),
      ...SIDES.flatMap((side) => readyProblems(log, side)),
      ...left.problems,
      ...right.problems,
      ...notAgreed(log),
    ],
  };
}
