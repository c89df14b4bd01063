/** Two entries that did not know of each other and differ: found in every slot, worded in one place. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Log } from '../record/log.ts';
import { gathers } from '../record/slots.ts';
import type { Problem } from './shape.ts';
import { capital, listed } from './words.ts';

const WHAT: Record<string, string> = {
  service: 'the service',
  'health.asked': 'the health question',
  'work.agreed': 'the agreement on the work',
  'binding.checked': 'the binding check',
  'handed.over': 'the hand-over',
  'released.unfit': 'the release of unfit boots',
  'floor.checked': 'the check of the floor',
  boot: 'the description of the boot',
  reworked: 'the reworked travel',
  pivots: 'the pivots of the cuff',
  sole: 'the cant under the boot',
  'stand.wanted': 'the wanted difference in stand height',
  closed: 'the decision on the cuff',
  cant: 'the chosen cant',
  plate: 'the fitted plate',
  measured: 'the measured sole',
  foreaft: 'the fore-aft reading',
  leg: 'what is known of the leg',
  response: 'what is known of the boot’s response',
};

const FIELD: Record<string, string> = {
  footbed: 'the footbed',
  shell: 'the state of the shell',
  'cuff-neutral': 'the neutral of the cuff',
  boardHeelMm: 'the boot board',
  heelLiftMm: 'the heel lift',
  boardCantDeg: 'the cant of the boot board',
  forwardLeanPos: 'the forward-lean position',
  spoiler: 'the spoiler',
  liner: 'the liner',
  footLengthMm: 'the length of the foot',
  shellGapMm: 'the room in the bare shell',
  hotSpots: 'the hot spots',
};

/** A slot in words: `boot/left` is "the description of the boot", `inside/left/heelLiftMm` "the heel lift". */
export function slotWords(name: string): string {
  const [kind = '', , field] = name.split('/');
  return (field && FIELD[field]) ?? WHAT[kind] ?? field ?? kind;
}

const sideOf = (name: string): Side | undefined => SIDES.find((side) => name.split('/')[1] === side);

/** Who entered it, and when by their station's clock: "bench at 09:12". */
function whoAndWhen(log: Log, id: string): string {
  const fact = log.get(id);
  return fact ? `${fact.by.initials ?? fact.by.role} at ${fact.at.slice(11, 16)}` : id;
}

function worded(log: Log, name: string, facts: readonly string[]): Problem {
  const side = sideOf(name);
  const whose = side ? ` (${side})` : '';
  const authors = listed(facts.map((id) => whoAndWhen(log, id)));
  return {
    fact: facts.at(-1)!,
    ...(side && { side }),
    code: 'conflict',
    text: `${capital(slotWords(name))}${whose}: ${authors} disagree, and neither knew of the other. One more entry settles it.`,
  };
}

/** Every slot whose heads disagree, in the order in which the slots were first set. */
export const conflictsOf = (log: Log): Problem[] =>
  log.slots('').flatMap((name) => {
    if (gathers(name)) return [];
    const state = log.now(name);
    return state.is === 'conflict' ? [worded(log, name, state.facts)] : [];
  });

/** One slot's disagreement in words; null when there is none. */
export function disputeOf(log: Log, name: string): string | null {
  const state = log.now(name);
  return state.is === 'conflict' ? worded(log, name, state.facts).text : null;
}
