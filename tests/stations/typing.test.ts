/** What instruments type after a number. */
import { describe, expect, it } from 'vitest';
import { parseNumber, unitTyped, withoutUnit } from '../../stations/kit/numbers.ts';

describe('what an instrument types', () => {
  it.each([
    ['12.34mm', 'mm', 12.34],
    ['12,3 mm', 'mm', 12.3],
    ['  +012.50 MM ', 'mm', 12.5],
    ['-0.5 mm', 'mm', -0.5],
    ['7', 'mm', 7],
    ['2.5°', '°', 2.5],
    ['2,5 deg', '°', 2.5],
    ['26.5', '', 26.5],
  ] as const)('%s in a field of %s is %d', (typed, unit, value) => {
    expect(parseNumber(withoutUnit(typed, unit))).toBe(value);
  });

  it.each([
    ['12mm', '°', 'mm'],
    ['2°', 'mm', '°'],
    ['0.4855 in', 'mm', 'in'],
    ['0.4855"', 'mm', '"'],
  ] as const)('%s in a field of %s is no number, and its unit is known', (typed, unit, other) => {
    expect(parseNumber(withoutUnit(typed, unit))).toBeNull();
    expect(unitTyped(typed)).toBe(other);
  });

  it('is no unit where there is no number before it', () => {
    expect(unitTyped('mm')).toBeNull();
    expect(unitTyped('12')).toBeNull();
    expect(unitTyped('12.3.4')).toBeNull();
  });
});
