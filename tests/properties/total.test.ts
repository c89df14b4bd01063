/** Whatever the facts, there is a plan: of numbers and nulls only, the same every time, and plain JSON. */
import { describe, expect, it } from 'vitest';
import { jobOf, KIND_NAMES, Log, parseLenient, parseStrict, plan, wallOf } from '../../core/index.ts';
import { check } from './check.ts';
import { someSession } from './sessions.ts';

/** Paths of what is no plain finite value. */
function oddities(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return [];
  if (typeof value !== 'object') return [`${path} is ${typeof value}`];
  return Object.entries(value).flatMap(([key, inner]) => oddities(inner, `${path}.${key}`));
}

describe('any session of well-shaped facts', () => {
  it('has a plan without NaN, Infinity or holes, again the same, and unchanged by JSON', () => {
    check(300, someSession, (facts) => {
      const once = plan(facts);
      expect(oddities(once)).toEqual([]);
      const text = JSON.stringify(once);
      expect(JSON.stringify(plan(structuredClone(facts)))).toBe(text);
      expect(JSON.stringify(JSON.parse(text))).toBe(text);
      for (const chance of [once.sides.left.cuff, once.sides.right.cuff].flatMap((c) => [
        c.chanceEven,
        c.chanceEvenAfter,
      ]))
        if (chance !== null) {
          expect(chance).toBeGreaterThanOrEqual(-1e-12);
          expect(chance).toBeLessThanOrEqual(1 + 1e-12);
        }
    });
  });

  it('has a row on the board as soon as it is opened, and leaves the facts as they were', () => {
    check(150, someSession, (facts) => {
      const before = JSON.stringify(facts);
      const row = jobOf(new Log(facts), plan(facts));
      expect(JSON.stringify(facts)).toBe(before);
      expect(row === null).toBe(!facts.some((fact) => fact.kind === 'session.opened'));
      if (row) expect(Object.keys(wallOf(row)).sort()).toEqual(['pickup', 'stage', 'ticket']);
    });
  });

  it('is read by the gate and by a reader', () => {
    const seen = new Set<string>();
    check(200, someSession, (facts) => {
      for (const fact of facts) {
        seen.add(fact.kind);
        const [strict, lenient] = [parseStrict(fact), parseLenient(fact)];
        expect(strict, fact.kind).toMatchObject({ ok: true });
        expect(lenient, fact.kind).toMatchObject({ ok: true });
      }
    });
    expect([...seen].sort()).toEqual([...KIND_NAMES].sort());
  });
});
