/** Whether the skier can be read again: gone with a pause, back once the floor has measured on them. */
import type { Fact, FactOf, Kind } from '../../core/index.ts';
import { logOf } from './entries.ts';

/** What is measured on a person standing there. */
const ON_THE_SKIER: readonly Kind[] = ['assessed', 'cuff.read', 'stance.read'];

/** The pause with which the skier went; null while they are here. */
export function goneSince(facts: readonly Fact[]): FactOf<'paused'> | null {
  const log = logOf(facts);
  const pause = log.live('paused').at(-1);
  if (!pause) return null;
  const later = log.facts.slice(log.facts.indexOf(pause) + 1);
  const back = later.some((fact) => ON_THE_SKIER.includes(fact.kind) && log.struckBy(fact.id) === null);
  return back ? null : pause;
}
