/** Where the numbers come from: hand-made sessions that have every kind of them. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { explain, plan, readSession } from '../../core/index.ts';
import type { Envelope, Explanation, Fact, Side } from '../../core/index.ts';
import { nullPaths, numberPaths, recomputed } from '../helpers/closed-forms.ts';
import { DUAL, HELD, KNEE, SINGLE, Story, story, withMarks } from '../helpers/facts.ts';

const SIDES = ['left', 'right'] as const;

const zones = (toe: number, heel: number) => ({
  toe: { heightMedialMm: toe, heightLateralMm: toe, widthMm: 69 },
  heel: { heightMedialMm: heel, heightLateralMm: heel, widthMm: 69 },
});

function knee(s: Story, side: Side, wedgeDeg: number, kneeOffsetMm: number): void {
  s.add('sole.set', { side, cantDeg: wedgeDeg, state: wedgeDeg ? 'test-wedge' : 'as-brought' });
  s.add('stance.read', {
    side,
    kneeOffsetMm,
    ...KNEE,
  });
}

/** From even cuffs to soles planed or plated two ways, measured, and out of their limits on the left. */
function whole(method: 'plate' | 'plane'): Story {
  const s = new Story();
  s.add('session.opened', { ticket: '1-41', clientRef: 'c-41', service: 'full', racing: true });
  s.add('health.asked', { outcome: 'proceed' });
  const screws = { screwDiameterMm: 4, screwHeadDepthMm: 2.5, screwMarginMm: 3 };
  s.add('settings.used', { minLugLeftMm: 6, gapErrorMm: 1.2, minThinEdgeMm: 3, ...screws } as never);
  s.add('stand.wanted', { side: 'right', higherMm: 1, onWordOf: 'skier' });
  for (const side of SIDES) {
    s.boot(side, withMarks(DUAL, 1));
    s.add('boot.described', {
      ...(s.facts.at(-1) as object),
      soleWidthToeMm: 69,
      soleWidthHeelMm: 66,
      zoneSpacingMm: 240,
      soleReplaceable: false,
      soleMaterialMm: 14,
    } as never);
    s.add('assessed', { side, footLengthMm: side === 'left' ? 262 : 266, shellGapMm: 12 });
    s.ready(side);
    s.read(side, 9, 9);
    s.add('cuff.closed', { side, decision: 'even' });
    s.add('foreaft.read', {
      side,
      boardHeelMm: 28,
      boardToeMm: 20,
      boardSpanMm: 180,
      standHeelMm: 26,
      standToeMm: 24,
      forwardLeanDeg: 13,
      skiStandMm: 46,
    });
  }
  s.add('floor.checked', { crossDeg: 0, alongDeg: 0 });
  for (const side of SIDES) {
    knee(s, side, 0, side === 'left' ? 9 : 3);
    const wedge = side === 'left' ? -2 : -1;
    knee(s, side, wedge, -4);
    knee(s, side, wedge, -4);
    s.add('sole.set', { side, cantDeg: 0, state: 'as-brought' });
    s.add('cant.chosen', { side, cantDeg: wedge, method, foreAftDeg: 0.5, override: 'as last season' });
    s.add('sole.measured', { side, when: 'before', ...zones(19.2, 30.1), soleHeightMm: 38 });
  }
  return s;
}

/** Readings at two settings and two heights, one leg known from elsewhere, one press, one cuff at its end. */
function cuffs(): Story {
  const s = story(withMarks(DUAL, 1), {
    ...SINGLE,
    holeEdgeMm: 9,
    minHoleEdgeMm: 5,
    slotsMayLengthen: true,
  } as never);
  s.add('response.known', { side: 'left', k: 0.9, sd: 0.1, pairs: 4 }, { role: 'server' });
  s.add(
    'leg.known',
    { side: 'left', mLegMm: 5, sdMm: 4, line: { offsetMm: 1, angleDeg: 2 } },
    { role: 'server' },
  );
  s.read('left', 16, 4);
  s.set('left', -1, 1);
  s.read('left', 12, 6, { heightMm: 150 });
  s.read('left', 13, 6, { lower: { medialMm: 11, lateralMm: 8, heightMm: 80, contact: 'none' } });
  s.read('right', 30, 0, { contact: 'lateral', pressure: 'press' });
  return s;
}

/** Not enough travel, and slots that may be lengthened a little. */
function ended(): Story {
  const s = story({ ...DUAL, holeEdgeMm: 6, minHoleEdgeMm: 5, slotsMayLengthen: true } as never);
  s.set('left', -4, 4);
  s.read('left', 24, 3);
  return s;
}

/** Read, and moved since: what to expect, before anybody reads. */
function moved(): Story {
  const s = cuffs();
  s.set('left', -2, 1);
  return s;
}

const fitted = (): Story => {
  const s = whole('plate');
  for (const side of SIDES)
    s.add('plate.fitted', { side, cantDeg: side === 'left' ? -2 : -1, method: 'plate', thinEdgeMm: 3.5 });
  s.add('sole.measured', { side: 'left', ...zones(22, 30) });
  return s;
};

const examples = readdirSync('docs/examples').map((name) => {
  const read = readSession(JSON.parse(readFileSync(`docs/examples/${name}`, 'utf8')));
  if (!read.ok) throw new Error(read.error);
  return [name, read.file.facts] as const;
});

const SESSIONS: readonly (readonly [string, readonly (Fact | Envelope)[]])[] = [
  ['cuffs', cuffs().facts],
  ['a moved cuff', moved().facts],
  ['the end of the travel', ended().facts],
  ['plates', whole('plate').facts],
  ['planing', whole('plane').facts],
  ['fitted plates', fitted().facts],
  ...examples,
];

const of = (facts: Parameters<typeof plan>[0], path: string): Explanation => {
  const found = explain(facts).find((one) => one.path === path);
  if (!found) throw new Error(`nothing explains ${path}`);
  return found;
};

describe('explanations', () => {
  it.each(SESSIONS)('[EXP-1] every number of the plan’s sides has one: %s', (_, facts) => {
    const numbers = explain(facts);
    const { sides } = plan(facts);
    expect(numbers.map(({ path }) => path)).toEqual(numberPaths(sides, 'sides'));
    for (const { path, value, formula, source, inputs } of numbers) {
      const leaf = path
        .split('.')
        .slice(1)
        .reduce<unknown>((at, step) => (at as Record<string, unknown>)[step], sides);
      expect(value, path).toBe(leaf);
      expect(formula.length * source.length * inputs.length, path).toBeGreaterThan(0);
    }
  });

  it('[EXP-1] the sessions here have every number there is', () => {
    const seen = new Set(SESSIONS.flatMap(([, facts]) => explain(facts).map(({ path }) => path)));
    for (const path of [
      'cuff.shortBy.pivotMm',
      'cuff.twoHeights.parallel.predicted.medialMm',
      'cuff.expected.medialMm',
      'cuff.move.lateralMarks',
      'stance.nextWedgeDeg',
      'sole.rout.heel.lateralMm',
      'sole.lugLeft.toe.medialMm',
      'sole.failures.0.is',
      'foreAft.netForwardLeanDeg',
      'sole.screws.toe.medial.usefulMm',
      'sole.planing.lifterMm',
      'sole.racing.soleHeightMm.roomMm',
      'sole.wantedStand.overMm',
      'stance.cantRange.lowDeg',
      'cuff.extension.medial.byMm',
      'fit.overMm',
    ])
      expect(
        [`sides.left.${path}`, `sides.right.${path}`].some((one) => seen.has(one)),
        path,
      ).toBe(true);
  });

  it.each(SESSIONS)('[EXP-2] every fact named stands in the session: %s', (_, facts) => {
    const ids = new Set(facts.map(({ id }) => id));
    for (const { path, inputs } of explain(facts))
      for (const input of inputs)
        for (const fact of input.facts) expect(ids.has(fact), `${path} ${input.name} ${fact}`).toBe(true);
  });

  it('[EXP-2] an input names the facts that it comes from, and a default none', () => {
    const s = story();
    const reading = s.read('left', 12, 6);
    const { inputs } = of(s.facts, 'sides.left.cuff.correctionDeg');
    expect(inputs).toEqual([
      { name: 'lean', value: 1, unit: '°', facts: ['f3', 'f7'] },
      { name: 'D', value: 6, unit: 'mm', facts: [reading] },
      { name: 'k', value: 1, unit: '1', facts: [reading] },
      { name: 'h', value: 160, unit: 'mm', facts: ['f3'] },
    ]);
    const sigma = () => of(s.facts, 'sides.left.cuff.biasMm').inputs.find(({ name }) => name === 'σ');
    expect(sigma()).toEqual({ name: 'σ', value: 1.5, unit: 'mm', facts: [] });
    const pinned = s.add('settings.used', { gapErrorMm: 2 } as never);
    expect(sigma()).toEqual({ name: 'σ', value: 2, unit: 'mm', facts: [pinned] });
  });

  it.each(SESSIONS)('[EXP-3] closed forms give the value from the listed inputs: %s', (_, facts) => {
    let checked = 0;
    for (const one of explain(facts)) {
      const again = recomputed(one);
      if (again === null) continue;
      checked++;
      expect(again, `${one.path}: ${one.formula}`).toBeCloseTo(one.value, 9);
    }
    expect(checked).toBeGreaterThan(3);
  });

  it('[EXP-3] a target inside the travel, without marks, has the spread that the formula gives', () => {
    const s = story();
    s.read('left', 12, 6);
    const { target } = plan(s.facts).sides.left.cuff;
    const take = (name: string) =>
      of(s.facts, 'sides.left.cuff.target.medialMm').inputs.find((one) => one.name === name)!.value;
    const wanted = take('w') * Math.sin(((take('lean*') - take('f')) * Math.PI) / 180);
    expect(wanted).toBeGreaterThan(take('s_min'));
    expect(wanted).toBeLessThan(take('s_max'));
    expect(target!.medialMm - target!.lateralMm).toBeCloseTo(wanted, 9);
  });

  it('[EXP-4] an interval holds its number, and a bound has none', () => {
    for (const [name, facts] of SESSIONS)
      for (const { path, value, interval } of explain(facts)) {
        if (!interval) continue;
        expect(interval.share).toBe(0.9);
        expect(interval.low, `${name} ${path}`).toBeLessThanOrEqual(value);
        expect(interval.high, `${name} ${path}`).toBeGreaterThanOrEqual(value);
      }
    expect(of(cuffs().facts, 'sides.right.cuff.correctionDeg').interval).toBeNull();
  });

  it('[EXP-4] nine tenths of a single reading’s bias lie within 1.645·σ√2', () => {
    const s = story();
    s.read('left', 12, 6);
    const { interval } = of(s.facts, 'sides.left.cuff.biasMm');
    const half = 1.6448536 * 1.5 * Math.SQRT2;
    expect(interval!.low).toBeCloseTo(6 - half, 5);
    expect(interval!.high).toBeCloseTo(6 + half, 5);
    // Both gaps after the move: half of the sum's error, σ√2, beside half of the bias's.
    const seen = plan(s.facts).sides.left.cuff;
    const predicted = of(s.facts, 'sides.left.cuff.predicted.medialMm').interval!;
    expect((predicted.high + predicted.low) / 2).toBeCloseTo(seen.predicted!.medialMm, 9);
    expect(predicted.high - predicted.low).toBeGreaterThan(1.6448536 * 1.5 * 2);
  });

  it('[EXP-4] what a round was foretold has the interval that was known before it', () => {
    const s = story();
    s.read('left', 14, 6);
    s.set('left', -1, 1);
    s.read('left', 10, 10);
    const { value, interval } = of(s.facts, 'sides.left.cuff.rounds.1.predictedBiasMm');
    expect((interval!.high + interval!.low) / 2).toBeCloseTo(value, 9);
    // One reading's error, and what the boot's response may differ: x·τ of 2·x·k.
    const [x, sd] = [(160 * 2) / 84, 1.5 * Math.SQRT2];
    const half = 1.6448536 * Math.hypot(sd, 2 * x * 0.2);
    expect((interval!.high - interval!.low) / 2).toBeCloseTo(half, 2);
    expect(
      explain(s.facts).find(({ path }) => path === 'sides.left.cuff.rounds.1.biasMm')!.interval,
    ).toBeNull();
  });

  it('[EXP-4] [STA-7] the cant’s interval is skewed as its slope makes it, and open where the slope may be none', () => {
    const facts = whole('plate').facts;
    const { value, interval } = of(facts, 'sides.left.stance.cantDeg');
    expect(Math.abs(interval!.low - value)).toBeGreaterThan(Math.abs(interval!.high - value));
    expect(plan(facts).sides.left.stance).toMatchObject({
      cantDeg: value,
      cantRange: { lowDeg: interval!.low, highDeg: interval!.high },
    });
    // Expected to move by 0.3 of the rigid leg, give or take 0.35 of it: perhaps not at all.
    const unsure = new Story().open('full');
    unsure.add('settings.used', { kneeSlopeShare: 0.3 } as never);
    for (const side of SIDES) {
      unsure.boot(side, DUAL).ready(side);
      unsure.read(side, 9, 9);
      unsure.add('cuff.closed', { side, decision: 'even' });
    }
    knee(unsure, 'left', 0, 0);
    expect(plan(unsure.facts).sides.left.stance.cantDeg).toBeLessThan(0);
    expect(of(unsure.facts, 'sides.left.stance.cantDeg').interval).toBeNull();
    expect(plan(unsure.facts).sides.left.stance.cantRange).toBeNull();
    expect(plan(unsure.facts).reasons['sides.left.stance.cantRange']?.text).toContain('leave open');
  });

  it.each(SESSIONS)(
    '[EXP-7] every null of the plan’s sides has a reason, and nothing else: %s',
    (_, facts) => {
      const { sides, reasons } = plan(facts);
      expect(Object.keys(reasons)).toEqual(nullPaths(sides, 'sides'));
      for (const [path, { text }] of Object.entries(reasons)) expect(text, path).toMatch(/^[A-Z].*\.$/);
    },
  );

  it('[EXP-7] the reason is the first thing that stands in the way', () => {
    const s = new Story().open('full');
    const why = (path: string) => plan(s.facts).reasons[`sides.left.${path}`];
    expect(why('cuff.target')).toMatchObject({ code: 'missing', text: expect.stringMatching(/^Describe/) });
    s.boot('left', DUAL).boot('right', DUAL);
    expect(why('cuff.target')?.text).toContain('pivots stand');
    s.ready('left').ready('right');
    expect(why('cuff.target')).toEqual({ code: 'unread', text: 'Read the left gaps.' });
    expect(why('stance.cantDeg')?.code).toBe('blocked');
    s.read('left', 9, 9, { posture: { ...HELD, midFlex: false } });
    expect(why('cuff.biasMm')?.code).toBe('refused');
    s.read('left', 18, 0, { contact: 'lateral', pressure: 'press' });
    expect(why('cuff.biasMm')).toBeUndefined();
    expect(why('cuff.biasSdMm')?.code).toBe('bound');
    s.read('left', 9, 9);
    expect(why('cuff.shortBy')?.code).toBe('not-due');
    s.add('inside.set', { side: 'left', heelLiftMm: 3 });
    expect(why('cuff.biasMm')).toMatchObject({ code: 'stale', text: expect.stringContaining('heel lift') });
    s.read('left', 9, 9);
    s.read('right', 9, 9);
    for (const side of SIDES) s.add('cuff.closed', { side, decision: 'even' });
    expect(why('stance.cantDeg')?.code).toBe('unread');
    expect(why('sole.plate')).toEqual({ code: 'missing', text: 'The left cant is not chosen.' });
    s.set('left', 1, 1, { basis: [] });
    expect(why('cuff.set')?.code).toBe('conflict');
    expect(why('cuff.target')?.code).toBe('conflict');
  });

  it('[EXP-5] the plan command prints them in the place of the plan', () => {
    const run = (...args: string[]) =>
      spawnSync('npm', ['run', '-s', 'plan', '--', ...args], { encoding: 'utf8' });
    const file = 'docs/examples/two-rounds-to-even.json';
    const { status, stdout, stderr } = run('--explain', file);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const facts = examples.find(([name]) => file.endsWith(name))![1];
    expect(JSON.parse(stdout)).toEqual({
      format: 'fibula-explanation/1',
      numbers: JSON.parse(JSON.stringify(explain(facts))) as unknown,
      unknown: plan(facts).reasons,
    });
    for (const wrong of [['--explain'], [file, '--explain'], ['--other', file]]) {
      const refused = run(...wrong);
      expect({ status: refused.status, stdout: refused.stdout }).toEqual({ status: 2, stdout: '' });
      expect(refused.stderr).toContain('usage');
    }
  });
});
