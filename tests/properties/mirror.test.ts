/** Left and right are alike: the same session with its sides exchanged has the same plan with its sides exchanged. */
import { describe, expect, it } from 'vitest';
import { otherSide, plan } from '../../core/index.ts';
import type { Fact, Plan, Side } from '../../core/index.ts';
import { check } from './check.ts';
import { someSession } from './sessions.ts';

const mirrored = (fact: Fact): Fact =>
  'side' in fact && fact.side ? ({ ...fact, side: otherSide(fact.side) } as Fact) : fact;

const WORDS: Readonly<Record<string, string>> = {
  left: 'right',
  right: 'left',
  Left: 'Right',
  Right: 'Left',
};
/** Where the words are not sides: what is left, who left, what is right. */
const NO_SIDE = /\b(?:boots left unfit|is left|left over|screws right)\b/;
const turned = (words: string): string =>
  words
    .split(new RegExp(`(${NO_SIDE.source})`))
    .map((part) =>
      NO_SIDE.test(part) ? part : part.replace(/\b(left|right|Left|Right)\b/g, (word) => WORDS[word]!),
    )
    .join('');

/** Sides and words exchanged, everywhere. */
function exchanged(value: unknown): unknown {
  if (typeof value === 'string') return turned(value);
  if (Array.isArray(value)) return value.map(exchanged);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [turned(key), exchanged(inner)]));
}

const inAnyOrder = (list: readonly unknown[]): string[] => list.map((one) => JSON.stringify(one)).sort();

/** A plan as far as the order of the two sides in its lists is no matter. */
const flat = ({ sides, steps, next, cautions, problems, reasons }: Plan) => ({
  sides,
  reasons,
  steps: inAnyOrder(steps.map((step) => ({ ...step, because: [...step.because].sort() }))),
  next: inAnyOrder(next),
  cautions: inAnyOrder(cautions),
  problems: inAnyOrder(problems),
});

describe('a session in the mirror', () => {
  it('has its plan in the mirror: numbers, words, steps and problems', () => {
    check(200, someSession, (facts) => {
      const here = exchanged(plan(facts)) as Plan;
      // The opened key order of `sides` is left, right in both.
      const { left, right } = here.sides as Readonly<Record<Side, unknown>>;
      expect(flat(plan(facts.map(mirrored)))).toEqual(flat({ ...here, sides: { left, right } } as Plan));
    });
  });
});
