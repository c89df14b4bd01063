/** Numbers as people type and read them. */
import { describe, expect, it } from 'vitest';
import { parseNumber, percent, shown, signed } from '../../stations/kit/numbers.ts';

describe('typed', () => {
  it.each([
    ['7', 7],
    ['7,5', 7.5],
    ['7.5', 7.5],
    [' 12,25 ', 12.25],
    [',5', 0.5],
    ['.5', 0.5],
    ['3,', 3],
    ['-4', -4],
    ['−1,5', -1.5],
    ['+2', 2],
    ['007', 7],
    ['0', 0],
  ])('%j is %s', (typed, number) => expect(parseNumber(typed)).toBe(number));

  it.each([
    '',
    ' ',
    ',',
    '.',
    '-',
    '1 2',
    '1.2.3',
    '1,2,3',
    '1.234,5',
    '7mm',
    '7e2',
    '0x10',
    'Infinity',
    'NaN',
    '½',
  ])('%j is no number', (typed) => expect(parseNumber(typed)).toBeNull());

  it('and shown again is the same number', () => {
    for (let tenths = -250; tenths <= 250; tenths++)
      expect(parseNumber(shown(tenths / 10))).toBeCloseTo(tenths / 10, 12);
  });
});

describe('shown', () => {
  it.each([
    [7, '7'],
    [7.25, '7.3'],
    [-1.5, '−1.5'],
    [-0.04, '0'],
    [1000, '1000'],
  ])('%s is %j', (number, text) => expect(shown(number)).toBe(text));

  it.each([
    [1.5, '+1.5'],
    [0, '0'],
    [0.04, '0'],
    [-2, '−2'],
  ])('with its sign %s is %j', (number, text) => expect(signed(number)).toBe(text));

  it.each([
    [0, '0 %'],
    [0.004, '<1 %'],
    [0.5, '50 %'],
    [0.996, '>99 %'],
    [1, '100 %'],
  ])('a chance of %s is %j', (chance, text) => expect(percent(chance)).toBe(text));
});
