/** Whatever the facts, every number of the plan says where it comes from. */
import { describe, expect, it } from 'vitest';
import { explain, plan } from '../../core/index.ts';
import { nullPaths, numberPaths, recomputed } from '../helpers/closed-forms.ts';
import { check } from './check.ts';
import { someSession } from './sessions.ts';

describe('any session of well-shaped facts', () => {
  it('[EXP-1] [EXP-2] [EXP-4] explains all its numbers from facts that are there', () => {
    check(150, someSession, (facts) => {
      const numbers = explain(facts);
      expect(numbers.map(({ path }) => path)).toEqual(numberPaths(plan(facts).sides, 'sides'));
      const ids = new Set(facts.map(({ id }) => id));
      for (const { path, inputs, interval, value } of numbers) {
        expect(inputs.length, path).toBeGreaterThan(0);
        for (const input of inputs) {
          expect(Number.isFinite(input.value), `${path} ${input.name}`).toBe(true);
          for (const fact of input.facts) expect(ids.has(fact), `${path} ${input.name}`).toBe(true);
        }
        if (!interval) continue;
        expect(interval.low, path).toBeLessThanOrEqual(value);
        expect(interval.high, path).toBeGreaterThanOrEqual(value);
      }
    });
  });

  it('[EXP-7] gives a reason for each null, and for nothing else', () => {
    check(150, someSession, (facts) => {
      const { sides, reasons } = plan(facts);
      expect(Object.keys(reasons)).toEqual(nullPaths(sides, 'sides'));
      for (const [path, { text }] of Object.entries(reasons)) expect(text, path).toMatch(/\S.*\.$/s);
    });
  });

  it('[EXP-3] has closed forms that its inputs bear out', () => {
    check(150, someSession, (facts) => {
      for (const one of explain(facts)) {
        const again = recomputed(one);
        if (again !== null)
          expect(Math.abs(again - one.value), `${one.path}: ${one.formula}`).toBeLessThan(
            1e-9 * Math.max(1, Math.abs(one.value)),
          );
      }
    });
  });
});
