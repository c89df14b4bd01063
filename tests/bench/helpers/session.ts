/** A long session as a shop would write it: two boots, rounds of readings and moves, stance, soles, corrections. */
import type { Fact, Side } from '../../../core/index.ts';
import { SIDES } from '../../../core/index.ts';
import { randomFrom } from '../../outside/random.ts';
import { POSTURE, story } from '../../properties/story.ts';
import type { Story } from '../../properties/story.ts';

const HARDWARE = {
  pivots: 'dual',
  pivotSpacingMm: 84,
  readingHeightMm: 160,
  factoryLeanDeg: 1,
  travel: { lateral: { upMm: 4, downMm: 4 }, medial: { upMm: 4, downMm: 4 } },
  markMm: 0.5,
  holeEdgeMm: 9,
};

type Random = ReturnType<typeof randomFrom>;
const halves = (value: number): number => Math.round(value * 2) / 2;

/** Two readings and a move on one cuff; one round in six begins with a press, one in eight has an entry struck. */
function round(s: Story, side: Side, count: number, random: Random): void {
  const spread = halves(random.between(-3, 3));
  const bias = 6 - 3 * spread;
  const gap = (share: number) => Math.max(1, halves(12 + (share * bias) / 2 + random.normal(0, 1)));
  if (count % 6 === 5)
    s.read(side, halves(random.between(8, 14)), 0, { contact: 'lateral', pressure: 'press' });
  s.read(side, gap(1), gap(-1));
  const slip = s.read(side, gap(1), gap(-1));
  if (count % 8 === 7) s.strike(slip, { reason: 'typed on the wrong line' });
  s.set(side, halves(spread / 2), -halves(spread / 2));
  s.read(side, gap(1), gap(-1));
}

/** What happens on a day beside the cuffs. */
function day(s: Story, side: Side, random: Random): void {
  s.add('floor.checked', { crossDeg: 0.1, alongDeg: -0.2 });
  s.add('ready.checked', { side, item: 'footbed', outcome: 'done', note: 'cork' });
  s.add('shell.worked', { side, spot: 'navicular', method: 'punch', amountMm: 2 });
  s.read(side, 7, 6);
  s.add('cuff.closed', { side, decision: 'even' });
  for (const cantDeg of [0, 1, -1.5, 0]) {
    s.add('sole.set', { side, cantDeg, state: cantDeg === 0 ? 'neutralised' : 'test-wedge' });
    s.add('stance.read', {
      side,
      kneeOffsetMm: halves(3 + 6 * cantDeg + random.normal(0, 4)),
      kneeHeightMm: 468,
      stanceWidthMm: 240,
      kneeMark: 'patella',
      restood: true,
      posture: POSTURE,
    });
  }
  s.add('foreaft.read', { side, boardHeelMm: 28, boardToeMm: 20, boardSpanMm: 180 });
}

/**
 * @param most how many facts there shall be
 * @param basis with each fact's basis, as stations write it; without, as in a file written by hand
 */
export function longSession(most: number, basis: boolean): readonly Fact[] {
  const random = randomFrom(4180);
  const s = story({ hardware: HARDWARE, service: 'full', basis });
  for (let count = 0; s.facts.length < most; count++) {
    const side = SIDES[count % 2]!;
    round(s, side, count >> 1, random);
    // After three rounds a cuff is closed, and the knee is read.
    if (count % 6 >= 4) day(s, side, random);
  }
  return s.facts.slice(0, most);
}
