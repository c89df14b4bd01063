/** In what today differs from what an entry rests on, by the table of record/rests.ts, in words. */
import { SIDES } from '../frame.ts';
import type { Fact } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { RESTS } from '../record/rests.ts';
import type { Hold, Place } from '../record/rests.ts';
import { sameValue } from '../record/slots.ts';
import { slotWords } from './conflicts.ts';

/** What an entry rests on, in words that fit before "has changed since". */
function words(name: string): string {
  const [kind = '', of = '', which = ''] = name.split('/');
  switch (kind) {
    // Others than the entry's own boot may be meant.
    case 'pivots':
      return `the pivot setting of the ${of} cuff`;
    case 'closed':
      return `the decision on the ${of} cuff`;
    case 'reworked':
      return `the travel of the ${of} boot's ${which} pivot`;
    case 'plate':
      return 'the plate';
    case 'shell':
      return 'the shell';
    default:
      return slotWords(name);
  }
}

/** How a slot's value differs between an author's eyes and today's; null when it does not. */
function valueChange(log: Log, name: string, id: string): string | null {
  const [then, now] = [log.asOf(name, id), log.now(name)];
  if (then.is === 'lost') return `${words(name)} it rests on was struck`;
  if (now.is === 'conflict' || then.is === 'conflict') return `${words(name)} is in dispute`;
  const same =
    then.is === now.is && (then.is !== 'one' || now.is !== 'one' || sameValue(name, then.value, now.value));
  return same ? null : `${words(name)} has changed since`;
}

function membersChange(log: Log, name: string, id: string): string | null {
  const [known, all] = [log.membersKnown(name, id), log.membersKnown(name, null)];
  const same = known.length === all.length && known.every((one) => all.includes(one));
  return same ? null : `${words(name)} was worked since`;
}

const recordChange = (log: Log, name: string, id: string): string | null =>
  log.asOf(name, id).is === 'lost' ? `the record of ${words(name)} it rests on was struck` : null;

function changeOf(hold: Hold, log: Log, name: string, id: string): string | null {
  switch (hold) {
    case 'value':
      return valueChange(log, name, id);
    case 'members':
      return membersChange(log, name, id);
    case 'record':
      return recordChange(log, name, id);
    // What is judged with the entries there is asked where they are: closing.ts, cant.ts.
    case 'through':
    case 'own':
    case 'known':
      return null;
    default:
      return hold satisfies never;
  }
}

const placeOf = (fact: Fact): Place => {
  const { side, item, adjuster, when } = fact as Partial<Place>;
  return { side: side ?? SIDES[0], item: item ?? '', adjuster: adjuster ?? '', when: when ?? 'after' };
};

/** All that has changed since this entry was made, of what its kind rests on; empty while it is current. */
export function changesSince(log: Log, fact: Fact): string[] {
  const place = placeOf(fact);
  return RESTS[fact.kind].flatMap(({ hold, on }) =>
    on(place)
      .flatMap((name) => log.under(name))
      .flatMap((name) => changeOf(hold, log, name, fact.id) ?? []),
  );
}
