/** From closed cuffs to a measured sole. Expected numbers are worked by hand from the formulas beside them. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Side } from '../../core/index.ts';
import { HELD, story, Story, WHOLE_BOOT } from '../helpers/facts.ts';

const TAN = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
const SIDES = ['left', 'right'] as const;

/** A full job with both cuffs read even and closed, on a level floor. */
function closed(boot: object = {}): Story {
  const s = new Story().open('full');
  for (const side of SIDES) {
    s.add('boot.described', {
      side,
      ...WHOLE_BOOT,
      ...boot,
    } as never);
    s.ready(side);
    s.read(side, 9, 9);
    s.add('cuff.closed', { side, decision: 'even' });
  }
  s.add('floor.checked', { crossDeg: 0, alongDeg: 0 });
  return s;
}

function knee(s: Story, side: Side, wedgeDeg: number, kneeOffsetMm: number, restood = true): string {
  const last = s.facts.findLast((f) => f.kind === 'sole.set' && f.side === side);
  if (last?.kind !== 'sole.set' || last.cantDeg !== wedgeDeg)
    s.add('sole.set', { side, cantDeg: wedgeDeg, state: wedgeDeg === 0 ? 'as-brought' : 'test-wedge' });
  return s.add('stance.read', {
    side,
    kneeOffsetMm,
    kneeHeightMm: 468,
    stanceWidthMm: 240,
    kneeMark: 'condyles',
    restood,
    posture: HELD,
  });
}

/** A knee 9 mm lateral when flat, that a degree moves by 6.5 mm: the target of −4 asks for −2°, thick edge lateral. */
function solved(s: Story, side: Side): void {
  knee(s, side, 0, 9);
  knee(s, side, -2, -4);
  knee(s, side, -2, -4);
}

const lugs = (toe: number, heel: number) => ({
  toe: { heightMedialMm: toe, heightLateralMm: toe, widthMm: 69 },
  heel: { heightMedialMm: heel, heightLateralMm: heel, widthMm: 69 },
});

const of = (s: Story, side: Side = 'left') => plan(s.facts).sides[side];
const status = (s: Story, step: string, side: Side | undefined = 'left') =>
  plan(s.facts).steps.find((x) => x.step === step && x.side === side)?.status;
const codes = (s: Story) => plan(s.facts).problems.map((p) => p.code);
const next = (s: Story) =>
  plan(s.facts)
    .next.filter((n) => n.side === 'left')
    .map((n) => n.do);

describe('stance and cant', () => {
  it('[STA-1] over open cuffs a knee reading counts for nothing', () => {
    const s = story();
    knee(s, 'left', 0, 9);
    expect(of(s).stance).toMatchObject({ verdict: 'blocked', cantDeg: null });
    expect(codes(s)).toContain('stance-open-cuffs');
  });

  it('[STA-2] one flat reading gives a wedge to try, never a plate', () => {
    const s = closed();
    expect(of(s).stance).toMatchObject({ verdict: 'unread', nextWedgeDeg: 0 });
    expect(status(s, 'stance')).toBe('ready');
    knee(s, 'left', 0, 9);
    const { stance } = of(s);
    const slope = 0.75 * 468 * TAN(1);
    expect(stance.offsetMm).toBeCloseTo(9, 9);
    expect(stance.slopeMmPerDeg).toBeCloseTo(slope, 9);
    expect(stance.cantDeg).toBeCloseTo(-13 / slope, 9);
    expect(stance.nextWedgeDeg).toBeLessThan(0);
    expect(status(s, 'stance')).toBe('ready');
    expect(next(s)).toEqual(['stance.read']);
    expect(status(s, 'cant')).toBe('blocked');
  });

  it('[STA-3] two re-stands and a wedge open the choice; an early choice says why or does not count', () => {
    const s = closed();
    knee(s, 'left', 0, 9);
    s.add('cant.chosen', { side: 'left', cantDeg: -2, method: 'plate' });
    expect(codes(s)).toContain('cant-early');
    expect(status(s, 'cant')).not.toBe('done');
    const reasoned = closed();
    knee(reasoned, 'left', 0, 9);
    reasoned.add('cant.chosen', {
      side: 'left',
      cantDeg: -2,
      method: 'plate',
      override: 'same plates as last season',
    });
    expect(status(reasoned, 'cant')).toBe('done');
    const patient = closed();
    solved(patient, 'left');
    expect(of(patient).stance).toMatchObject({ verdict: 'cant', roundedDeg: -2, thickEdge: 'lateral' });
    expect(status(patient, 'stance')).toBe('done');
    expect(next(patient)).toEqual(['cant.chosen']);
  });

  it('[STA-4] a knee that moves against its wedges gives no cant', () => {
    const s = closed();
    knee(s, 'left', 0, 9);
    for (let i = 0; i < 3; i++) knee(s, 'left', -2, 22);
    expect(of(s).stance).toMatchObject({ verdict: 'contradictory', cantDeg: null });
    expect(codes(s)).toContain('contradictory');
  });

  it('[STA-4] past the limit no plate is proposed', () => {
    const s = closed();
    for (let i = 0; i < 3; i++) knee(s, 'left', 0, 25);
    knee(s, 'left', -2, 12);
    expect(of(s).stance).toMatchObject({ verdict: 'refer', roundedDeg: null });
    expect(
      plan(s.facts)
        .steps.find((x) => x.step === 'cant' && x.side === 'left')!
        .because.join(),
    ).toContain('clinician');
  });

  it('[STA-5] either cuff moved makes knee readings stale, and a fresh reading the choice', () => {
    const s = closed();
    solved(s, 'left');
    s.add('cant.chosen', { side: 'left', cantDeg: -2, method: 'plate' });
    expect(status(s, 'cant')).toBe('done');
    knee(s, 'left', -2, -4);
    expect(status(s, 'cant')).toBe('stale');
    const moved = closed();
    solved(moved, 'left');
    moved.set('right', -1, 1);
    moved.read('right', 8, 8);
    moved.add('cuff.closed', { side: 'right', decision: 'accepted' });
    expect(status(moved, 'stance')).toBe('stale');
    expect(codes(moved)).toContain('stale');
  });

  it('[STA-6] left and right far apart are questioned, each from its own readings', () => {
    const s = closed();
    solved(s, 'left');
    knee(s, 'right', 0, -4);
    knee(s, 'right', 1, 2);
    expect(of(s, 'right').stance.cantDeg!).toBeGreaterThan(-1);
    expect(codes(s)).toContain('cants-apart');
    const alone = closed();
    solved(alone, 'left');
    expect(of(alone).stance).toEqual(of(s).stance);
  });
});

describe('sole', () => {
  const chosen = (boot: object = {}, minLugLeftMm?: number): Story => {
    const s = closed(boot);
    if (minLugLeftMm !== undefined) s.add('settings.used', { minLugLeftMm } as never);
    for (const side of SIDES) {
      solved(s, side);
      s.add('sole.set', { side, cantDeg: 0, state: 'as-brought' });
      s.add('cant.chosen', { side, cantDeg: -2, method: 'plate' });
    }
    return s;
  };
  const fit = (s: Story, side: Side) =>
    s.add('plate.fitted', { side, cantDeg: -2, method: 'plate', thinEdgeMm: 3 });

  it('[SOL-1] the plate for the chosen cant, thick edge lateral, and the sole measured first', () => {
    const s = chosen();
    const rise = 69 * TAN(2);
    expect(of(s).sole.plate!.toe).toMatchObject({
      thinEdgeMm: expect.closeTo(3, 9) as number,
      thickEdgeMm: expect.closeTo(3 + rise, 9) as number,
      centreMm: expect.closeTo(3 + rise / 2, 9) as number,
    });
    expect(of(s).sole.standHeightMm).toBeCloseTo(3 + rise / 2, 9);
    expect(next(s)).toEqual(['sole.measured']);
    s.add('sole.measured', { side: 'left', when: 'before', ...lugs(19.2, 30.1) });
    s.add('sole.measured', { side: 'right', when: 'before', ...lugs(19.2, 30.1) });
    expect(status(s, 'sole')).toBe('blocked');
  });

  it('[SOL-1] the lower boot gets the thicker plate', () => {
    const s = closed();
    solved(s, 'left');
    s.add('cant.chosen', { side: 'left', cantDeg: -2, method: 'plate' });
    knee(s, 'right', 0, 3);
    knee(s, 'right', -1, -4);
    s.add('cant.chosen', { side: 'right', cantDeg: -1, method: 'plate', override: 'seen on snow' });
    const [left, right] = [of(s).sole, of(s, 'right').sole];
    expect(left.standHeightMm).toBeCloseTo(right.standHeightMm!, 9);
    expect(right.plate!.toe.thinEdgeMm).toBeGreaterThan(left.plate!.toe.thinEdgeMm);
  });

  it('[SOL-2] no routing without the minimum; with it, depths and what is left', () => {
    const without = chosen();
    without.add('sole.measured', { side: 'left', when: 'before', ...lugs(19.2, 30.1) });
    expect(of(without).sole).toMatchObject({ rout: null, lugLeft: null });
    expect(
      plan(without.facts)
        .steps.find((x) => x.step === 'sole')!
        .because.join(),
    ).toContain('least lug');
    const s = chosen({}, 8);
    s.add('sole.measured', { side: 'left', when: 'before', ...lugs(19.2, 30.1) });
    const { rout, lugLeft } = of(s).sole;
    expect(rout!.toe.lateralMm).toBeCloseTo(3 + 69 * TAN(2) + 0.2, 9);
    expect(rout!.toe.medialMm).toBeCloseTo(3.2, 9);
    expect(lugLeft!.heel.lateralMm).toBeCloseTo(30.1 - (3 + 69 * TAN(2) + 0.1), 9);
    const thin = chosen({}, 16);
    thin.add('sole.measured', { side: 'left', when: 'before', ...lugs(19.2, 30.1) });
    expect(of(thin).sole.rout).toBeNull();
  });

  it.each([{ inserts: true }, { soleStandard: 'iso9523-a' }])(
    '[SOL-3] nothing for %o without the maker’s approval',
    (boot) => {
      const s = chosen(boot);
      expect(of(s).sole.plate).toBeNull();
      expect(
        plan(s.facts)
          .steps.find((x) => x.step === 'sole')!
          .because.join(),
      ).toContain('approval');
      s.add('work.agreed', {
        irreversible: ['rout'],
        agreedBy: 'owner',
        warrantyTold: true,
        makerApproval: 'letter 12',
      });
      expect(of(s).sole.plate).not.toBeNull();
    },
  );

  it('[SOL-4] [SOL-5] [SOL-6] the finished sole is judged, and rests on its plate', () => {
    const s = chosen({}, 8);
    for (const side of SIDES) s.add('sole.measured', { side, when: 'before', ...lugs(19.2, 30.1) });
    expect(plan(s.facts).next).toContainEqual(expect.objectContaining({ role: 'desk', do: 'work.agreed' }));
    s.add('work.agreed', { irreversible: ['rout'], agreedBy: 'owner', warrantyTold: true });
    expect(next(s)).toEqual(['plate.fitted']);
    for (const side of SIDES) fit(s, side);
    expect(next(s)).toEqual(['sole.measured']);
    s.add('sole.measured', { side: 'left', ...lugs(21, 30) });
    expect(of(s).sole).toMatchObject({
      conforms: false,
      failures: [{ where: 'toe.heightMedialMm', is: 21, min: 18, max: 20 }, { where: 'toe.heightLateralMm' }],
    });
    expect(status(s, 'sole')).toBe('blocked');
    for (const side of SIDES) s.add('sole.measured', { side, ...lugs(19, 30) });
    expect(of(s).sole).toMatchObject({
      conforms: true,
      unchecked: expect.arrayContaining(['heel.widthMm', 'toe.parallelMm']) as string[],
    });
    expect(plan(s.facts).next).toMatchObject([{ role: 'desk', do: 'binding.checked' }]);
    expect(plan(s.facts).cautions).toContainEqual(
      expect.objectContaining({ step: 'binding', level: 'warning' }),
    );
    s.add('binding.checked', { outcome: 'passed', reference: 'B-77' });
    expect(plan(s.facts).steps.at(-1)).toMatchObject({ step: 'handover', status: 'ready' });
    s.add('plate.fitted', { side: 'left', cantDeg: -2, method: 'plate', thinEdgeMm: 4 });
    expect(status(s, 'sole')).toBe('stale');
    expect(of(s).sole.conforms).toBeNull();
  });
});

describe('what is made under a boot', () => {
  const chosen = (cants: readonly [number, number], method: 'plate' | 'plane' = 'plate'): Story => {
    const s = closed();
    SIDES.forEach((side, i) =>
      s.add('cant.chosen', { side, cantDeg: cants[i]!, method, override: 'as last season' }),
    );
    return s;
  };
  const measured = (s: Story, more: object = {}): Story => {
    for (const side of SIDES)
      s.add('sole.measured', { side, when: 'before', ...lugs(19.2, 30.2), ...more } as never);
    return s;
  };
  const why = (s: Story, path: string) => plan(s.facts).reasons[`sides.left.${path}`];

  it('[SOL-7] a planed sole is told what comes off and the lifter that brings the lugs back', () => {
    const { planing, plate, standHeightMm } = of(measured(chosen([2, 2], 'plane'))).sole;
    const off = 69 * TAN(2);
    expect(plate).toBeNull();
    expect(planing!.toe).toEqual({
      medialMm: 0,
      lateralMm: expect.closeTo(off, 9),
      centreMm: expect.closeTo(off / 2, 9),
    });
    // The lug has 0.2 mm to give.
    expect(planing!.lifterMm).toBeCloseTo(off - 0.2, 9);
    expect(standHeightMm).toBeCloseTo(planing!.lifterMm - off / 2, 9);
  });

  it('[SOL-8] a screw grips by two diameters and stays outside; what nobody entered is asked for', () => {
    const s = chosen([2, 2]);
    expect(of(s).sole.screws).toBeNull();
    expect(why(s, 'sole.screws')?.code).toBe('missing');
    s.add('settings.used', { screwDiameterMm: 4, screwHeadDepthMm: 1, screwMarginMm: 3 } as never);
    const thick = 3 + 69 * TAN(2);
    const { toe } = of(s).sole.screws!;
    expect(toe.medial).toEqual({ minMm: expect.closeTo(thick - 1 + 8, 9), maxMm: null, usefulMm: null });
    expect(why(s, 'sole.screws.toe.medial.maxMm')?.code).toBe('missing');
    s.add('boot.described', {
      ...(s.facts.find((f) => f.kind === 'boot.described') as object),
      soleMaterialMm: 14,
    } as never);
    const known = of(s).sole.screws!;
    expect(known.toe.medial).toMatchObject({
      maxMm: expect.closeTo(thick - 1 + 11, 9) as number,
      usefulMm: expect.closeTo(thick - 1 + 11, 9) as number,
    });
    expect(known.heel.lateral).toMatchObject({ minMm: expect.closeTo(10, 9) as number });
    // A head that sits deeper than the plate is thin makes the plate thicker.
    s.add('settings.used', { screwHeadDepthMm: 4 } as never);
    expect(of(s).sole.plate!.toe.thinEdgeMm).toBeCloseTo(5, 9);
  });

  it('[SOL-9] a racer’s heights are held against the limits, each with where it comes from', () => {
    const s = new Story();
    s.add('session.opened', { ticket: '1-9', clientRef: 'c-9', service: 'full', racing: true });
    s.facts.push(...chosen([2, 2]).facts.slice(1));
    expect(of(s).sole.racing).toMatchObject({
      raceClass: 'general',
      allowed: null,
      soleHeightMm: {
        isMm: null,
        maxMm: 43,
        roomMm: null,
        provenance: expect.stringContaining('secondary') as string,
      },
    });
    expect(why(s, 'sole.racing.soleHeightMm.isMm')?.text).toMatch(/^Not checked: measure/);
    measured(s, { soleHeightMm: 38 });
    const { soleHeightMm, allowed } = of(s).sole.racing!;
    const is = 38 + 3 + 69 * TAN(2);
    expect(soleHeightMm).toMatchObject({
      isMm: expect.closeTo(is, 9) as number,
      roomMm: expect.closeTo(43 - is, 9) as number,
    });
    expect(allowed).toBe(false);
    expect(plan(s.facts).problems.filter(({ code }) => code === 'race-limit')).toHaveLength(2);
    s.add('settings.used', { raceSoleMaxMm: 44 } as never);
    expect(of(s).sole.racing).toMatchObject({
      allowed: true,
      soleHeightMm: { maxMm: 44, provenance: 'entered by the shop' },
    });
    expect(of(chosen([2, 2])).sole.racing).toBeNull();
  });

  it('[SOL-10] a wanted difference in stand height is made by the plates, on somebody’s word', () => {
    const s = chosen([2, 1]);
    const level = () => of(s, 'left').sole.standHeightMm! - of(s, 'right').sole.standHeightMm!;
    expect(level()).toBeCloseTo(0, 9);
    s.add('stand.wanted', { side: 'right', higherMm: 5, onWordOf: 'clinician' });
    expect(level()).toBeCloseTo(-5, 9);
    expect(of(s, 'right').sole.wantedStand).toEqual({ overMm: 5, onWordOf: 'clinician' });
    expect(of(s, 'left').sole.wantedStand).toEqual({ overMm: -5, onWordOf: 'clinician' });
    expect(codes(s)).not.toContain('stand-unequal');
    expect(plan(s.facts).cautions.some(({ text }) => text.includes('this tool advises none'))).toBe(true);
    // A boot that gets no plate cannot be raised by one: said, and left to people.
    const flat = chosen([2, 0]);
    flat.add('stand.wanted', { side: 'right', higherMm: 5, onWordOf: 'skier' });
    expect(plan(flat.facts).problems).toContainEqual(
      expect.objectContaining({
        code: 'stand-unequal',
        text: expect.stringMatching(/word of the skier; it stands 4.2 mm lower/) as string,
      }),
    );
    const raised = chosen([2, 0]);
    raised.add('stand.wanted', { side: 'left', higherMm: 6, onWordOf: 'skier' });
    expect(of(raised).sole.standHeightMm).toBeCloseTo(6, 9);
    expect(codes(raised)).not.toContain('stand-unequal');
  });
});

describe('fore-aft', () => {
  it('[FOR-1] angles add up, and what was not measured is null', () => {
    const s = closed();
    expect(of(s).foreAft).toMatchObject({
      rampDeg: null,
      deltaDeg: null,
      degPerHeelMm: expect.closeTo((Math.atan(1 / 305) * 180) / Math.PI, 9) as number,
    });
    s.add('foreaft.read', {
      side: 'left',
      boardHeelMm: 28,
      boardToeMm: 20,
      boardSpanMm: 180,
      standHeelMm: 26,
      standToeMm: 24,
      forwardLeanDeg: 13,
    });
    const ramp = (Math.atan(8 / 180) * 180) / Math.PI;
    const delta = (Math.atan(2 / 305) * 180) / Math.PI;
    expect(of(s).foreAft).toMatchObject({
      rampDeg: expect.closeTo(ramp, 9) as number,
      netRampDeg: expect.closeTo(ramp + delta, 9) as number,
      netForwardLeanDeg: expect.closeTo(13 + delta, 9) as number,
    });
  });
});

describe('fore-aft, once something has changed', () => {
  const angled = (): Story => {
    const s = closed();
    s.add('inside.set', { side: 'left', boardHeelMm: 28 });
    s.add('foreaft.read', {
      side: 'left',
      boardHeelMm: 28,
      boardToeMm: 20,
      boardSpanMm: 180,
      standHeelMm: 26,
      standToeMm: 24,
    });
    return s;
  };

  it('[FOR-2] another inside makes the reading stale: no angles, and it is said why; put back, they are there', () => {
    const s = angled();
    const { rampDeg } = of(s).foreAft;
    expect(rampDeg).toBeGreaterThan(0);
    s.add('inside.set', { side: 'left', heelLiftMm: 3 });
    expect(of(s).foreAft).toMatchObject({ rampDeg: null, deltaDeg: null, netRampDeg: null });
    const said = plan(s.facts).problems.filter(({ text }) => text.includes('fore-aft'));
    expect(said).toMatchObject([{ code: 'stale', text: expect.stringContaining('heel lift') as string }]);
    s.add('struck', { fact: s.facts.at(-1)!.id, reason: 'undo' }, { role: 'desk' });
    expect(of(s).foreAft.rampDeg).toBe(rampDeg);
  });

  it('[FOR-1] a wedge is counted as far as it is another than the one under the boot when it was read', () => {
    const s = angled();
    const flat = of(s).foreAft.deltaDeg!;
    const wedge = (foreAftDeg: number) =>
      s.add('plate.fitted', { side: 'left', cantDeg: 0, method: 'plate', thinEdgeMm: 3, foreAftDeg });
    wedge(0.5);
    expect(of(s).foreAft.deltaDeg).toBeCloseTo(flat + 0.5, 9);
    s.add('foreaft.read', {
      side: 'left',
      boardHeelMm: 28,
      boardToeMm: 20,
      boardSpanMm: 180,
      standHeelMm: 30,
      standToeMm: 24,
    });
    const over = of(s).foreAft.deltaDeg!;
    expect(over).toBeCloseTo((Math.atan(6 / 305) * 180) / Math.PI, 9);
    wedge(1.25);
    expect(of(s).foreAft.deltaDeg).toBeCloseTo(over + 0.75, 9);
  });
});

describe('the other leg', () => {
  it('[CUF-18] a reading that fits the other leg is questioned', () => {
    const s = story();
    for (let i = 0; i < 3; i++) s.read('left', 16, 4);
    s.read('right', 4, 16);
    expect(codes(s)).toEqual([]);
    const exchanged = s.read('left', 4, 16);
    expect(plan(s.facts).problems).toContainEqual(
      expect.objectContaining({ code: 'wrong-side', fact: exchanged }),
    );
  });
});
