/** The cuff loop, rule by rule. Expected numbers are worked by hand from the formulas beside them. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Payload } from '../../core/index.ts';
import { DUAL, FIXED, SINGLE, story, withMarks } from '../helpers/facts.ts';
import type { Story } from '../helpers/facts.ts';

const DEG = 180 / Math.PI;
const left = (s: Story) => plan(s.facts).sides.left.cuff;
const codes = (s: Story) => plan(s.facts).problems.map((p) => p.code);
type Hardware = Payload<'boot.described'>['hardware'];

const read = (hardware: Hardware, medial: number, lateral: number, more = {}) => {
  const s = story(hardware);
  s.read('left', medial, lateral, more);
  return s;
};

describe('cuff', () => {
  it('[CUF-1] outward is lateral down and medial up', () => {
    const s = story();
    s.set('left', -1.5, 1.5);
    expect(left(s).leanDeg).toBeCloseTo(1 + Math.asin(3 / 84) * DEG, 9);
    s.set('left', 2, -1);
    expect(left(s).leanDeg).toBeCloseTo(1 - Math.asin(3 / 84) * DEG, 9);
  });

  it('[CUF-2] one reading gives the closed form', () => {
    const cuff = left(read(DUAL, 12, 6));
    const even = Math.asin(Math.sin(1 / DEG) + 3 / 160) * DEG;
    expect(cuff.verdict).toBe('uneven');
    expect(cuff.correctionDeg).toBeCloseTo(even - 1, 9);
    expect(cuff.target!.medialMm - cuff.target!.lateralMm).toBeCloseTo(84 * Math.sin((even - 1) / DEG), 9);
    expect(cuff.target!.medialMm).toBeCloseTo(-cuff.target!.lateralMm, 9);
    expect(cuff.response).toEqual({ k: 1, sd: expect.closeTo(0.2, 9) as number });
    expect(cuff.move!.text).toMatch(/lateral pivot down .* medial pivot up .* outward/);
  });

  it('[CUF-2] a single pivot takes the whole correction on the lateral side, inward is up', () => {
    const cuff = left(read(SINGLE, 6, 12));
    const even = Math.asin(Math.sin(0.5 / DEG) - 3 / 155) * DEG;
    expect(cuff.target).toMatchObject({
      medialMm: 0,
      lateralMm: expect.closeTo(-82 * Math.sin((even - 0.5) / DEG), 9) as number,
    });
    expect(cuff.move!.text).toMatch(/lateral pivot up .* inward/);
    expect(cuff.move!.text).not.toContain('medial pivot');
  });

  it('[CUF-3] on marks the pair of least bias, and of least movement among equals', () => {
    const cuff = left(read(withMarks(DUAL, 1), 14, 4));
    // 10 mm of bias ask for a spread of 2.63 mm: three marks leave less than two.
    expect(cuff.target).toMatchObject({ medialMm: 1, lateralMm: -2 });
    expect(cuff.move).toMatchObject({ medialMarks: 1, lateralMarks: -2 });
    const s = read(withMarks(DUAL, 1), 14, 4);
    s.set('left', -2, 0);
    s.read('left', 12, 6);
    // From an uneven start nothing moves back.
    expect(left(s).target!.medialMm).toBeGreaterThanOrEqual(0);
    expect(left(s).target!.lateralMm).toBeLessThanOrEqual(-2);
  });

  it('[CUF-3] unequal positions come before marks', () => {
    const stops = [-3.2, -2.3, 0, 2.3, 3.2].map((mm, i) => ({ label: 'ABCDE'[i]!, mm }));
    const hardware = {
      ...withMarks(DUAL, 1),
      positions: { lateral: stops, medial: stops },
    } as unknown as Hardware;
    const { target } = left(read(hardware, 12, 6));
    for (const at of [target!.lateralMm, target!.medialMm])
      expect(stops.map((stop) => stop.mm)).toContain(at);
  });

  it('[CUF-4] the sum of the gaps stays, and the prediction is for what can be set', () => {
    const cuff = left(read(withMarks(DUAL, 1), 14, 4));
    const moved = 160 * (Math.sin(1 / DEG + Math.asin(3 / 84)) - Math.sin(1 / DEG));
    expect(cuff.predicted!.medialMm).toBeCloseTo(14 - moved, 9);
    expect(cuff.predicted!.lateralMm).toBeCloseTo(4 + moved, 9);
  });

  it('[CUF-21] read twice and barely even, a move that makes it sure is told, and closing stays open', () => {
    const s = read(DUAL, 11.5, 9);
    expect(left(s)).toMatchObject({ verdict: 'even', moveOn: null });
    s.read('left', 11.5, 8.5);
    const barely = left(s);
    expect(barely.verdict).toBe('even');
    expect(barely.chanceEven!).toBeLessThan(0.7);
    expect(barely.chanceEvenAfter!).toBeGreaterThanOrEqual(0.85);
    expect(barely.moveOn).toContain('read again');
    expect(barely.move!.text).toContain('pivot');
    expect(plan(s.facts).next.find((act) => act.side === 'left')).toMatchObject({
      role: 'bench',
      do: 'cuff.set',
      text: barely.move!.text,
    });
    s.add('cuff.closed', { side: 'left', decision: 'even' });
    expect(plan(s.facts).steps.find(({ step, side }) => step === 'cuff' && side === 'left')).toMatchObject({
      status: 'done',
    });
  });

  it('[CUF-22] an even cuff in doubt is read once more, and not again', () => {
    const s = read(DUAL, 11.5, 9);
    expect(left(s).chanceEven!).toBeLessThan(0.8);
    expect(left(s).readAgain).toContain('before closing');
    s.read('left', 11, 9);
    expect(left(s)).toMatchObject({ verdict: 'even', readAgain: null });
    const sure = read(DUAL, 9, 9);
    expect(left(sure).chanceEven!).toBeGreaterThan(0.8);
    expect(left(sure).readAgain).toBeNull();
  });

  it('[CUF-22] one that may be even already is read up to three times before it is moved', () => {
    const s = read(DUAL, 12, 8.5);
    for (const repeats of [1, 2, 3]) {
      const cuff = left(s);
      expect(cuff).toMatchObject({ verdict: 'uneven', reading: { repeats } });
      expect(cuff.chanceEven!).toBeGreaterThan(0.3);
      if (repeats < 3) expect(cuff.readAgain).toContain('before moving');
      else expect(cuff.readAgain).toBeNull();
      s.read('left', 12, 8.5);
    }
    expect(left(read(DUAL, 16, 4)).readAgain).toBeNull();
  });

  // Two readings of a gap error e each differ in bias by no more than 2.8·√2·e in 95 % of cases, three by 3.3·√2·e.
  it('[CUF-22] repeats are too far apart by their number: four millimetres at 1 mm for two, not for three', () => {
    const s = story(DUAL);
    s.add('settings.used', { gapErrorMm: 1 }, { role: 'server' });
    s.read('left', 9, 9);
    s.read('left', 11.5, 7.5);
    expect(left(s)).toMatchObject({ reading: { spreadMm: 4 } });
    expect(left(s).readAgain).toContain('differ by 4 mm');
    s.read('left', 10, 8.5);
    expect(left(s)).toMatchObject({ reading: { spreadMm: 4, repeats: 3 }, readAgain: null });
    s.read('left', 12, 7);
    expect(left(s).readAgain).toBeNull();
    s.read('left', 9, 10);
    expect(left(s).readAgain).toContain('differ by 6 mm');
  });

  it('[CUF-21] where marks leave the cuff about as it is, none is told', () => {
    const s = read(withMarks(DUAL, 2), 11.5, 9);
    s.read('left', 11.5, 8.5);
    expect(left(s)).toMatchObject({ verdict: 'even', moveOn: null });
    expect(left(s).chanceEvenAfter!).toBeLessThan(0.85);
  });

  it('[CUF-5] a press is at least, a graze is a reading of 0', () => {
    const press = left(read(DUAL, 12, 0, { contact: 'lateral', pressure: 'press' }));
    const graze = left(read(DUAL, 12, 0, { contact: 'lateral', pressure: 'graze' }));
    expect(press).toMatchObject({
      verdict: 'contact',
      bound: 'at-least',
      correctionSdDeg: null,
      chanceEven: null,
    });
    expect(press.readAgain).toBeTruthy();
    expect(graze).toMatchObject({ verdict: 'uneven', bound: 'exact', correctionDeg: press.correctionDeg });
    expect(graze.correctionSdDeg).toBeGreaterThan(0);
  });

  it('[CUF-5] after a press a free reading is shown alone, and the press only pushes the estimate outward', () => {
    const s = read(DUAL, 12, 0, { contact: 'lateral', pressure: 'press' });
    s.set('left', -1, 1);
    s.read('left', 9, 6);
    const { reading, biasMm, bound } = left(s);
    expect(reading).toMatchObject({ repeats: 1, medialMm: 9, lateralMm: 6 });
    expect(bound).toBe('exact');
    const without = story();
    without.set('left', -1, 1);
    without.read('left', 9, 6);
    expect(biasMm!).toBeGreaterThan(left(without).biasMm!);
  });

  it('[CUF-6] pressed on both sides is too narrow', () => {
    expect(left(read(DUAL, 0, 0, { contact: 'both', pressure: 'press' }))).toMatchObject({
      verdict: 'too-narrow',
      correctionDeg: null,
      target: null,
    });
  });

  it('[CUF-7] repeats are averaged, with their spread', () => {
    const s = read(DUAL, 12, 6);
    s.read('left', 11, 7, { stanceWidthMm: 249 });
    expect(left(s).reading).toMatchObject({
      repeats: 2,
      medialMm: 11.5,
      lateralMm: 6.5,
      biasMm: 5,
      spreadMm: 2,
    });
    expect(left(s).correctionSdDeg).toBeLessThan(left(read(DUAL, 11.5, 6.5)).correctionSdDeg!);
  });

  it.each<Parameters<Story['read']>[3]>([{ to: 'liner' }, { liner: 'in' }, { stanceWidthMm: 252 }])(
    '[CUF-7] %o is not pooled, and it is said why',
    (more) => {
      const s = read(DUAL, 12, 6);
      const id = s.facts.at(-1)!.id;
      s.read('left', 9, 9, more);
      expect(left(s).reading).toMatchObject({ repeats: 1, biasMm: 0 });
      expect(left(s).biasMm).toBeCloseTo(0, 9);
      expect(plan(s.facts).problems).toEqual([expect.objectContaining({ code: 'not-pooled', fact: id })]);
    },
  );

  it('[CUF-8] a cuff that gave less than predicted is asked for more', () => {
    const s = read(DUAL, 16, 4);
    s.set('left', -1.5, 1.5);
    s.read('left', 13, 7);
    const cuff = left(s);
    // 12 mm of bias, of which geometry took 11.4 and the boot gave 6.
    const x = 2 * 160 * (Math.sin(cuff.leanDeg! / DEG) - Math.sin(1 / DEG));
    const weight = 25 + x ** 2 / 9;
    expect(cuff.response.k).toBeCloseTo((25 + (x * 6) / 9) / weight, 9);
    expect(cuff.response.sd).toBeCloseTo(Math.sqrt(1 / weight), 9);
    const naive = Math.asin(Math.sin(cuff.leanDeg! / DEG) + cuff.biasMm! / 320) * DEG - cuff.leanDeg!;
    expect(cuff.correctionDeg!).toBeGreaterThan(naive);
    expect(cuff.rounds.map((round) => round.biasMm)).toEqual([12, 6]);
    expect(cuff.rounds[1]!.predictedBiasMm).toBeCloseTo(
      12 - 2 * 160 * (Math.sin(cuff.leanDeg! / DEG) - Math.sin(1 / DEG)),
      6,
    );
  });

  it('[CUF-9] even by the estimate of all readings, not by the last alone', () => {
    const s = read(DUAL, 11, 8);
    expect(left(s).verdict).toBe('even');
    const once = read(DUAL, 12, 6);
    once.read('left', 12, 6);
    once.read('left', 10, 8);
    expect(left(once)).toMatchObject({ verdict: 'uneven' });
    expect(left(once).biasMm).toBeCloseTo(14 / 3, 9);
    expect(left(read(DUAL, 2, 0, { contact: 'lateral', pressure: 'press' })).verdict).toBe('contact');
  });

  it('[CUF-10] at the end of travel it says what is missing', () => {
    const s = read(SINGLE, 17, 2);
    expect(left(s)).toMatchObject({ verdict: 'uneven', limitedBy: null });
    const far = read(SINGLE, 25, 2);
    expect(left(far)).toMatchObject({ verdict: 'uneven', limitedBy: 'travel', target: { lateralMm: -5 } });
    far.set('left', -5);
    far.read('left', 18, 9);
    const cuff = left(far);
    expect(cuff).toMatchObject({ verdict: 'out-of-travel', limitedBy: 'travel', target: { lateralMm: -5 } });
    expect(cuff.shortBy!.pivotMm).toBeGreaterThan(0);
    expect(cuff.shortBy!.leanDeg).toBeCloseTo(cuff.correctionDeg!, 9);
    expect(cuff.shortBy!.biasMm).toBeCloseTo(cuff.biasMm!, 9);
    expect(plan(far.facts).next.find((n) => n.side === 'left')!.text).toContain('end of the travel');
    expect(left(read(FIXED, 12, 4))).toMatchObject({
      verdict: 'out-of-travel',
      limitedBy: 'travel',
      set: { medialMm: 0, lateralMm: 0 },
    });
  });

  it('[CUF-11] a longer slot gives travel again and reopens the cuff', () => {
    const s = read(SINGLE, 25, 2);
    s.set('left', -5);
    s.read('left', 18, 9);
    s.add('cuff.closed', { side: 'left', decision: 'accepted' });
    const step = () => plan(s.facts).steps.find((x) => x.step === 'cuff' && x.side === 'left')!;
    expect(step().status).toBe('done');
    s.add('pivot.reworked', { side: 'left', adjuster: 'lateral', method: 'slot', newUpMm: 5, newDownMm: 9 });
    expect(step().status).toBe('stale');
    expect(left(s)).toMatchObject({ verdict: 'uneven', limitedBy: null });
    expect(left(s).target!.lateralMm).toBeLessThan(-5);
  });

  it('[CUF-12] a reading half way up counts double, as the leg’s line carries it', () => {
    expect(left(read(DUAL, 9, 6, { heightMm: 80 })).biasMm).toBeCloseTo(6, 9);
  });

  it('[CUF-13] two heights part tilt from offset, and both answers are given when they disagree', () => {
    const s = read(DUAL, 12, 6, { lower: { medialMm: 11, lateralMm: 5, heightMm: 80, contact: 'none' } });
    const { twoHeights } = left(s);
    // m = 3 above and 3 below: the same offset all the way, no tilt.
    expect(twoHeights!.angleDeg).toBeCloseTo(0, 9);
    expect(twoHeights!.offsetMm).toBeCloseTo(3, 9);
    expect(twoHeights!.offsetSdMm).toBeCloseTo(1.5 * Math.sqrt(5 / 2), 9);
    // A gap that was read off a picture is as much less sure as the picture was: m1 takes part with 1 − q = −1.
    const pictured = read(DUAL, 12, 6, {
      lower: { medialMm: 11, lateralMm: 5, heightMm: 80, contact: 'none' },
      fromPhoto: { marks: ['m1'], medialSdMm: 3, lateralSdMm: 4 },
    });
    expect(left(pictured).twoHeights!.offsetMm).toBeCloseTo(3, 9);
    expect(left(pictured).twoHeights!.offsetSdMm).toBeCloseTo(Math.hypot(1.5 * Math.sqrt(5 / 2), 5 / 2), 9);
    const off = read(DUAL, 18, 2, { lower: { medialMm: 18, lateralMm: 2, heightMm: 60, contact: 'none' } });
    const found = left(off).twoHeights!;
    expect(found.agree).toBe(false);
    expect(found.parallel.correctionDeg).toBeCloseTo(0, 9);
    expect(found.parallel.target).toMatchObject({ medialMm: expect.closeTo(0, 9) as number });
    expect(codes(off)).toContain('heights-disagree');
    const close = read(DUAL, 12, 6, {
      lower: { medialMm: 11, lateralMm: 5, heightMm: 140, contact: 'none' },
    });
    expect(left(close).twoHeights).toBeNull();
    expect(codes(close)).toContain('heights-close');
  });

  it('[CUF-14] an unknown factory lean hides the lean, not the correction', () => {
    const { factoryLeanDeg: _hidden, ...hardware } = DUAL as Hardware & { factoryLeanDeg?: number };
    const cuff = left(read(hardware as Hardware, 12, 6));
    expect(cuff.leanDeg).toBeNull();
    expect(cuff.target!.leanDeg).toBeNull();
    expect(cuff.correctionDeg).toBeCloseTo(Math.asin(3 / 160) * DEG, 9);
  });

  it('[CUF-15] marks that keep a cuff from even are named', () => {
    expect(left(read(withMarks(DUAL, 2), 13, 5)).limitedBy).toBe('marks');
    expect(left(read(DUAL, 13, 5)).limitedBy).toBeNull();
  });

  it('[CUF-16] a learned response scales the move', () => {
    const s = story();
    s.add('response.known', { side: 'left', k: 0.8, sd: 0.05, pairs: 40 });
    s.read('left', 12, 6);
    expect(left(s).correctionDeg).toBeCloseTo(Math.asin(Math.sin(1 / DEG) + 3 / (0.8 * 160)) * DEG - 1, 9);
    expect(left(s).predicted!.medialMm).toBeCloseTo(9, 6);
  });

  it('[CUF-16] a leg known from another boot is a prior, and gives nothing before a reading', () => {
    const s = story();
    s.add('leg.known', { side: 'left', mLegMm: 4, sdMm: 1 });
    expect(left(s)).toMatchObject({ verdict: 'unread', correctionDeg: null, target: null });
    s.read('left', 11, 5);
    // Bias 6 with variance 4.5, against 8 with variance 4.
    expect(left(s).biasMm).toBeCloseTo((6 / 4.5 + 8 / 4) / (1 / 4.5 + 1 / 4), 9);
  });

  it('[CUF-17] closed as even stays closed until the pivots move', () => {
    const s = read(DUAL, 9, 9);
    const step = () => plan(s.facts).steps.find((x) => x.step === 'cuff' && x.side === 'left')!;
    s.add('cuff.closed', { side: 'left', decision: 'even' });
    expect(step().status).toBe('done');
    s.set('left', -1, 1);
    expect(step()).toMatchObject({ status: 'stale', because: [expect.stringContaining('pivot setting')] });
  });

  it('[CUF-17] closed as even against its readings is not closed', () => {
    const s = read(DUAL, 14, 4);
    s.add('cuff.closed', { side: 'left', decision: 'even' });
    expect(codes(s)).toEqual(['closed-not-even']);
    expect(plan(s.facts).steps.find((x) => x.step === 'cuff')!.status).toBe('waiting');
    const blind = story();
    blind.add('cuff.closed', { side: 'left', decision: 'accepted' });
    expect(codes(blind)).toEqual(['closed-unread']);
  });
});

describe('longer slots', () => {
  const EDGES = { holeEdgeMm: 7, minHoleEdgeMm: 5, slotsMayLengthen: true };
  /** A leg 21 mm off an upright cuff with 4 mm of travel each way: some millimetres are missing. */
  const ended = (hardware: object): Story => {
    const s = story({ ...DUAL, ...hardware } as typeof DUAL);
    s.set('left', -4, 4);
    s.read('left', 24, 3);
    return s;
  };
  const left = (s: Story) => plan(s.facts).sides.left.cuff;
  const why = (s: Story) => plan(s.facts).reasons['sides.left.cuff.extension'];

  it('[CUF-19] the lateral slot first, down for an outward lean, and never nearer to the edge than may be', () => {
    const { extension, shortBy, verdict } = left(ended(EDGES));
    expect(verdict).toBe('out-of-travel');
    const missing = shortBy!.pivotMm;
    expect(missing).toBeGreaterThan(2);
    expect(extension).toMatchObject({
      lateral: { byMm: 2, edgeLeftMm: 5 },
      medial: { byMm: expect.closeTo(Math.min(2, missing - 2), 9) as number },
      way: { lateral: 'down', medial: 'up' },
      leastEdgeMm: 5,
      before: ['the maker’s approval', 'the owner’s agreement to a longer slot'],
    });
    expect(extension!.shortMm).toBeCloseTo(Math.max(0, missing - 4), 9);
  });

  // As the desk enters it, and as earlier versions did in either language.
  it.each(['slot', 'longer pivot slot', 'Langloch am Drehpunkt verlängern'])(
    '[CUF-19] travel lengthened as told reaches what was missing, agreed to as %s',
    (work) => {
      const s = ended({ ...EDGES, holeEdgeMm: 20 });
      const { byMm, edgeLeftMm } = left(s).extension!.lateral!;
      s.add('work.agreed', {
        irreversible: [work],
        warrantyTold: true,
        makerApproval: 'letter 7',
      });
      expect(plan(s.facts).next).toContainEqual(
        expect.objectContaining({ role: 'bench', side: 'left', do: 'pivot.reworked' }),
      );
      s.add('pivot.reworked', {
        side: 'left',
        adjuster: 'lateral',
        method: 'slot',
        newUpMm: 4,
        newDownMm: 4 + byMm,
        edgeMm: edgeLeftMm,
      });
      expect(left(s)).toMatchObject({ shortBy: null, extension: null, limitedBy: null });
      expect(plan(s.facts).problems.filter(({ side }) => side === 'left')).toEqual([]);
    },
  );

  it.each([
    [{ holeEdgeMm: 7, minHoleEdgeMm: 5 }, 'missing', 'Say whether'],
    [{ holeEdgeMm: 7, slotsMayLengthen: true }, 'missing', 'least that must stay'],
    [{ minHoleEdgeMm: 5, slotsMayLengthen: true }, 'missing', 'lateral and medial pivot hole to the edge'],
    [{ ...EDGES, slotsMayLengthen: false }, 'withheld', 'must not'],
  ])('[CUF-19] with %o nothing is told: %s', (hardware, code, says) => {
    const s = ended(hardware);
    expect(left(s).extension).toBeNull();
    expect(why(s)).toEqual({ code, text: expect.stringContaining(says) as string });
  });

  it('[CUF-19] the shop’s least stands in for the boot’s; a hole cut nearer than that is a problem', () => {
    const s = ended({ holeEdgeMm: 7, slotsMayLengthen: true });
    s.add('settings.used', { minHoleEdgeMm: 6 } as never);
    expect(left(s).extension!.lateral).toEqual({ byMm: 1, edgeLeftMm: 6 });
    s.add('pivot.reworked', {
      side: 'left',
      adjuster: 'lateral',
      method: 'slot',
      newUpMm: 4,
      newDownMm: 6,
      edgeMm: 5,
    });
    const codes = plan(s.facts).problems.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['edge-thin', 'not-agreed', 'not-approved']));
  });
});

describe('progress', () => {
  const told = (s: Story) => plan(s.facts).sides.left.cuff.rounds.map(({ progress }) => progress);

  it('[CUF-20] from press to graze to gap at one setting is progress', () => {
    const s = story();
    s.read('left', 15, 0, { contact: 'lateral', pressure: 'press' });
    expect(told(s)).toEqual([null]);
    s.read('left', 15, 0, { contact: 'lateral', pressure: 'graze' });
    expect(told(s)).toEqual(['Left leg, lateral from press to graze: progress, though nothing moved.']);
    s.set('left', -2, 1);
    s.read('left', 12, 3);
    expect(told(s)[1]).toBe('Left leg, lateral from graze to gap: progress.');
    s.set('left', -4, 4);
    s.read('left', 0, 12, { contact: 'medial', pressure: 'press' });
    expect(told(s)[2]).toBe('Left leg, medial from gap to press, which is closer.');
  });
});
