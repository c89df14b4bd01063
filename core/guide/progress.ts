/** From press to graze to gap, said in words: progress even where no millimetre changed. */
import type { Side } from '../frame.ts';
import type { JudgedReading } from './readings.ts';
import { capital } from './words.ts';

type Touch = 'press' | 'graze' | 'gap';
const RANK: Readonly<Record<Touch, number>> = { press: 0, graze: 1, gap: 2 };

const touchAt = ({ fact }: JudgedReading, edge: 'medial' | 'lateral'): Touch => {
  if (fact.contact !== edge && fact.contact !== 'both') return 'gap';
  return fact.pressure === 'press' ? 'press' : 'graze';
};

function atEdge(edge: 'medial' | 'lateral', before: JudgedReading, now: JudgedReading): string[] {
  const [was, is] = [touchAt(before, edge), touchAt(now, edge)];
  if (was === is) return [];
  return [`${edge} from ${was} to ${is}${RANK[is] < RANK[was] ? ', which is closer' : ''}`];
}

/** What changed in how the leg touches, from one reading to the next; null when nothing did. */
export function progressOf(side: Side, before: JudgedReading, now: JudgedReading): string | null {
  const changes = [...atEdge('medial', before, now), ...atEdge('lateral', before, now)];
  if (!changes.length) return null;
  const better = (['medial', 'lateral'] as const).every(
    (edge) => RANK[touchAt(now, edge)] >= RANK[touchAt(before, edge)],
  );
  const same = now.set!.medialMm === before.set!.medialMm && now.set!.lateralMm === before.set!.lateralMm;
  const verdict = better ? (same ? ': progress, though nothing moved' : ': progress') : '';
  return `${capital(side)} leg, ${changes.join('; ')}${verdict}.`;
}
