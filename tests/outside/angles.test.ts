/**
 * Angle arithmetic against printed tables and worked examples of other trades. Each row names its source and how
 * sure it is: `read` in the source, `secondary` from a text that quotes it, `exact` where trigonometry alone says it.
 */
import { describe, expect, it } from 'vitest';
import { deg, degAsin, degAtan, mm, rad, sinDeg, tanDeg, toDeg, toRad } from '../../core/index.ts';
import { lean, tilt } from '../../core/maths/hardware.ts';
import type { HardwareNow } from '../../core/maths/hardware.ts';
import { evenLean, shift, tiltAndOffset } from '../../core/maths/cuff.ts';

/** Half a unit of the last printed digit. */
const printed = (digits: number) => 0.5 * 10 ** -digits + 1e-12;

describe('sine bar: stack H = L·sin θ (metrology handbooks; US Army ordnance course OD1642 states the rule)', () => {
  it.each<[number, number, number, number, string]>([
    // bar, angle, stack, digits printed, confidence
    [100, 0.25, 0.4363, 4, 'exact'],
    [100, 0.5, 0.8727, 4, 'exact'],
    [100, 1, 1.7452, 4, 'exact'],
    [100, 1.5, 2.6177, 4, 'exact'],
    [100, 2, 3.4899, 4, 'exact'],
    [100, 3, 5.2336, 4, 'exact'],
    [100, 5, 8.7156, 4, 'exact'],
    [5, 34 + 25 / 60, 2.826, 3, 'read: Handbook of Machining and Metalworking Calculations, ch. 4'],
    [5, 18, 1.545, 3, 'secondary: workshop example'],
    [5, 27, 2.27, 3, 'secondary: workshop example'],
  ])('bar %d at %d° is a stack of %d (%d digits; %s)', (bar, angle, stack, digits) => {
    expect(Math.abs(bar * sinDeg(deg(angle)) - stack)).toBeLessThanOrEqual(printed(digits));
    // Back again: the printed stack gives the angle as closely as its rounding lets it.
    const slack = toDeg(rad(printed(digits) / (bar * Math.cos(toRad(deg(angle))))));
    expect(Math.abs(degAsin(stack / bar) - angle)).toBeLessThanOrEqual(slack * 1.01);
    // A cuff on its pivots is a sine bar: as long as the pivots stand apart, stacked by their spread.
    expect(Math.abs(tilt(mm(stack), mm(bar)) - angle)).toBeLessThanOrEqual(slack * 1.01);
  });
});

describe('symmetric taper: 2·tan(θ/2) per inch (Turning and Boring Tapers, 1902, public domain; read)', () => {
  it.each([
    // The 1° entry is printed .01746 where the formula gives .017454: the table is good to 1.2e-5.
    [1, 0.01746],
    [2, 0.0349],
    [3, 0.05236],
    [5, 0.08732],
    [10, 0.17498],
    [20, 0.35266],
    [30, 0.5359],
    [35, 0.6306],
    [40, 0.72794],
    [45, 0.82842],
  ] as const)('included angle %d° tapers %d in an inch', (angle, taper) => {
    expect(Math.abs(2 * tanDeg(deg(angle / 2)) - taper)).toBeLessThan(1.2e-5);
    expect(Math.abs(2 * degAtan(taper / 2) - angle)).toBeLessThan(toDeg(rad(1.2e-5)));
  });

  it.each([
    [1, 0.20952],
    [2, 0.4188],
    [3, 0.62832],
  ] as const)('%d° tapers %d in a foot (rounded before it was multiplied)', (angle, taper) => {
    expect(Math.abs(24 * tanDeg(deg(angle / 2)) - taper)).toBeLessThan(12 * 1.2e-5);
  });

  it('is not the one-sided wedge: at 10° .17498 against tan 10° = .17633', () => {
    expect(2 * tanDeg(deg(5))).toBeCloseTo(0.17498, 5);
    expect(tanDeg(deg(10))).toBeCloseTo(0.17633, 5);
  });
});

describe('one-sided wedge: rise = width·tan θ (plane trigonometry; exact)', () => {
  it.each([
    // width, angle, rise by the tangent (a plate) and by the sine (the same width measured along the slope)
    [69, 0.5, 0.6022, 0.6021],
    [69, 1, 1.2044, 1.2042],
    [69, 1.5, 1.8068, 1.8062],
    [69, 2, 2.4095, 2.4081],
    [69, 3, 3.6161, 3.6112],
    [62, 1, 1.0822, 1.082],
    [100, 1, 1.7455, 1.7452],
  ] as const)('%d mm at %d° rise %d mm, along the slope %d mm', (width, angle, rise, bySin) => {
    expect(Math.abs(width * tanDeg(deg(angle)) - rise)).toBeLessThanOrEqual(printed(4));
    expect(Math.abs(width * sinDeg(deg(angle)) - bySin)).toBeLessThanOrEqual(printed(4));
    expect(degAtan(rise / width)).toBeCloseTo(angle, 3);
  });

  it('a quarter of an inch in a foot is 1° 11′ 36″, seconds cut off (workshop example; secondary, exact)', () => {
    expect(Math.abs(degAtan(0.25 / 12) - (1 + 11 / 60 + 36 / 3600))).toBeLessThan(1 / 3600);
  });
});

describe('a leg that turns about its foot: H·sin θ at mean knee heights of a public survey (exact)', () => {
  it.each([
    // height, angle, across by the sine and by the tangent, drop
    [438, 1, 7.644, 7.645, 0.0667],
    [449, 1, 7.836, 7.837, 0.0684],
    [468, 1, 8.168, 8.169, 0.0713],
    [488, 1, 8.517, 8.518, 0.0743],
    [500, 1, 8.726, 8.728, 0.0762],
    [500, 1.5, 13.088, 13.093, 0.1713],
    [500, 2, 17.45, 17.46, 0.3046],
  ] as const)(
    '%d mm up at %d° are %d mm across by the sine, %d by the tangent, %d down',
    (h, at, bySin, byTan, drop) => {
      const angle = deg(at);
      expect(Math.abs(h * sinDeg(angle) - bySin)).toBeLessThanOrEqual(printed(3));
      expect(Math.abs(h * tanDeg(angle) - byTan)).toBeLessThanOrEqual(printed(3));
      expect(Math.abs(h * (1 - Math.cos(toRad(angle))) - drop)).toBeLessThanOrEqual(printed(4));
    },
  );

  it.each([
    [10, 468, 1.2241, 1.2244],
    [5, 468, 0.6121, 0.6121],
    [20, 500, 2.2906, 2.2924],
  ] as const)('%d mm at %d mm are %d° by the tangent, %d° by the sine', (across, height, byTan, bySin) => {
    expect(Math.abs(degAtan(across / height) - byTan)).toBeLessThanOrEqual(printed(4));
    expect(Math.abs(degAsin(across / height) - bySin)).toBeLessThanOrEqual(printed(4));
  });
});

describe('the cuff’s own formulas at those angles', () => {
  const hardware = (pivotSpacingMm: number, readingHeightMm: number, factoryLeanDeg = 0): HardwareNow => ({
    pivots: 'dual',
    pivotSpacingMm: mm(pivotSpacingMm),
    readingHeightMm: mm(readingHeightMm),
    factoryLeanDeg: deg(factoryLeanDeg),
    lateral: null,
    medial: null,
    markMm: null,
  });
  const atRest = { medialMm: mm(0), lateralMm: mm(0) };

  it('a 100 mm bar stacked 8.7156 mm leans 5°, lateral down outward, lateral up inward', () => {
    const bar = hardware(100, 100);
    expect(lean(bar, { medialMm: mm(0), lateralMm: mm(-8.7156) })).toBeCloseTo(5, 4);
    expect(lean(bar, { medialMm: mm(0), lateralMm: mm(8.7156) })).toBeCloseTo(-5, 4);
    expect(lean(bar, { medialMm: mm(8.7156), lateralMm: mm(0) })).toBeCloseTo(5, 4);
  });

  it('its centre 500 mm up moves 8.726 mm at 1° and 17.450 mm at 2° (rigid rotation; exact)', () => {
    const tall = hardware(100, 500);
    expect(shift(tall, { medialMm: mm(0), lateralMm: mm(-1.745240644) })).toBeCloseTo(8.726, 3);
    expect(shift(tall, { medialMm: mm(0), lateralMm: mm(-3.48994967) })).toBeCloseTo(17.45, 3);
  });

  it('a difference of 6 mm 150 mm up is evened by 1.146° (exact; by sine and tangent alike to 4 digits)', () => {
    const found = evenLean(hardware(84, 150), { biasMm: mm(6), response: 1 }, atRest);
    expect(Math.abs(found - 1.146)).toBeLessThanOrEqual(printed(3));
    expect(degAtan(6 / 300)).toBeCloseTo(found, 3);
  });

  it('half biases of 4 mm at 160 mm and 2 mm at 80 mm are a tilt of 1.432° without offset (atan 0.025; exact)', () => {
    const found = tiltAndOffset(
      {
        upper: { biasMm: mm(8), heightMm: mm(160) },
        lower: { biasMm: mm(4), heightMm: mm(80) },
      },
      mm(1.5),
    )!;
    expect(Math.abs(found.angleDeg - 1.432)).toBeLessThanOrEqual(printed(3));
    expect(found.offsetMm).toBeCloseTo(0, 9);
    // m0 = 2·m_lower − m_upper here; m has variance σ²/2: sd = σ·√((4 + 1)/2).
    expect(found.offsetSdMm).toBeCloseTo(1.5 * Math.sqrt(2.5), 9);
  });
});
