/** The picture of one adjuster: where its marks stand, which keep their labels, and which way the toe points. */
import { expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { dialScale, toePointsRight } from '../../stations/kit/drawing/dial.ts';
import { DUAL, SINGLE, story, withMarks } from '../helpers/facts.ts';

const TOP = 10;
const BOTTOM = 240;
const reachOf = (hardware: typeof DUAL) => plan(story(hardware).facts).sides.left.cuff.hardware!.lateral!;

it('is linear: the ends at the ends, up is up, every millimetre measured back', () => {
  const { y } = dialScale(reachOf(DUAL), TOP, BOTTOM);
  expect([y(-4), y(0), y(4)]).toEqual([BOTTOM, (TOP + BOTTOM) / 2, TOP]);
  for (let mm = -4; mm <= 4; mm += 0.25) {
    const back = -4 + ((BOTTOM - y(mm)) / (BOTTOM - TOP)) * 8;
    expect(Math.abs(back - mm)).toBeLessThan(1e-9);
  }
});

it('has a tick at every mark of the hardware, and at whole millimetres where there are none', () => {
  expect(dialScale(reachOf(withMarks(DUAL, 0.5)), TOP, BOTTOM).ticks.map(({ mm }) => mm)).toHaveLength(17);
  expect(dialScale(reachOf(SINGLE), TOP, BOTTOM).ticks.map(({ mm }) => mm)).toEqual([
    -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5,
  ]);
});

it('keeps labels apart, and never loses those of neutral and of the ends', () => {
  for (const mark of [0.25, 0.5, 1, 2]) {
    const { ticks } = dialScale(reachOf(withMarks(DUAL, mark)), TOP, BOTTOM);
    const labelled = ticks.filter(({ label }) => label !== null);
    expect(labelled.map(({ mm }) => mm)).toEqual(expect.arrayContaining([-4, 0, 4]));
    const places = labelled.map(({ y }) => y).sort((a, b) => a - b);
    for (const [i, place] of places.slice(1).entries()) expect(place - places[i]!).toBeGreaterThanOrEqual(21);
  }
});

it('shows a boot as the one sees it who stands beside it', () => {
  expect(toePointsRight('right', 'lateral')).toBe(true);
  expect(toePointsRight('right', 'medial')).toBe(false);
  expect(toePointsRight('left', 'lateral')).toBe(false);
  expect(toePointsRight('left', 'medial')).toBe(true);
});
