/**
 * The gate, attacked rule by rule. Each attack is stopped by the rule it is meant for, and each shows what it
 * would get away with if that rule were left out: so a rule that no attack needs is seen.
 */
import { describe, expect, it } from 'vitest';
import { gate, makeGate, RULES } from '../../server/gate.ts';
import type { RuleName, Verdict } from '../../server/gate-rule.ts';
import { DESK, MEASURING } from './helpers/attack.ts';
import { entryAttacks } from './helpers/attacks-entries.ts';
import { orderAttacks } from './helpers/attacks-order.ts';
import { updateAttacks } from './helpers/attacks-update.ts';
import { openSession, viewOf } from './helpers/view.ts';

const ATTACKS = [...updateAttacks, ...orderAttacks, ...entryAttacks];

const without = (rule: RuleName) => makeGate(RULES.filter(({ name }) => name !== rule));
/** What it comes to: the rule that objects, or what is done. */
function outcome(judge: () => Verdict): string {
  try {
    const verdict = judge();
    return verdict.do === 'ask' || !('rule' in verdict) ? verdict.do : verdict.rule;
  } catch {
    return 'throw';
  }
}

describe('the gate', () => {
  it.each(ATTACKS.map((attack) => [attack.rule, attack.title, attack] as const))(
    '%s stops %s',
    (rule, _title, { bytes, writer = MEASURING, doc = openSession(DESK), answer, otherwise }) => {
      const verdict = gate(bytes, viewOf(doc), writer);
      expect(verdict.do).toBe(answer);
      if ('rule' in verdict) expect(verdict.rule).toBe(rule);
      expect(outcome(() => without(rule)(bytes, viewOf(doc), writer))).toBe(otherwise);
    },
  );

  it.each(RULES.map((rule) => [rule.name]))(
    'no other rule than %s stops all attacks that it stops',
    (rule) => {
      const stopped = ATTACKS.filter((attack) => attack.rule === rule);
      const unstopped = stopped.filter(({ otherwise }) =>
        ['take', 'nothing', 'ask', 'throw'].includes(otherwise),
      );
      expect(unstopped).not.toEqual([]);
    },
  );

  it('has each rule once, and no attack on a rule that it does not have', () => {
    const names = RULES.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect([...new Set(ATTACKS.map(({ rule }) => rule))].sort()).toEqual([...names].sort());
  });
});
