/** What a measurement rests on at its boot, and in what today differs from it. */
import type { Side } from '../frame.ts';
import type { Log } from '../record/log.ts';
import { sameValue, slot } from '../record/slots.ts';

const INSIDE_WORDS: Record<string, string> = {
  boardHeelMm: 'the boot board',
  heelLiftMm: 'the heel lift',
  boardCantDeg: 'the cant of the boot board',
  forwardLeanPos: 'the forward-lean position',
  spoiler: 'the spoiler',
  liner: 'the liner',
};

/** How a slot's value differs between an author's eyes and today's, as words about `what`; null when it does not. */
export function difference(log: Log, name: string, id: string, what: string): string | null {
  const [then, now] = [log.asOf(name, id), log.now(name)];
  if (then.is === 'lost') return `${what} it rests on was struck`;
  if (now.is === 'conflict' || then.is === 'conflict') return `${what} is in dispute`;
  const same =
    then.is === now.is && (then.is !== 'one' || now.is !== 'one' || sameValue(name, then.value, now.value));
  return same ? null : `${what} has changed since`;
}

/** Changes of footbed, shell and what is inside one boot since the author of `id` saw it, in words. */
export function bootChanges(log: Log, side: Side, id: string): string[] {
  const found: (string | null)[] = [
    difference(log, slot.ready(side, 'footbed'), id, 'the footbed'),
    difference(log, slot.ready(side, 'shell'), id, 'the state of the shell'),
  ];
  const inside = slot.inside(side, '');
  for (const name of log.slots(inside))
    found.push(
      difference(log, name, id, INSIDE_WORDS[name.slice(inside.length)] ?? 'what is inside the boot'),
    );
  const [known, all] = [log.membersKnown(slot.shell(side), id), log.membersKnown(slot.shell(side), null)];
  if (known.length !== all.length || known.some((one) => !all.includes(one)))
    found.push('the shell was worked since');
  return found.filter((words) => words !== null);
}
