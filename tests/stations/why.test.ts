/** The words of “Why?”: none is missing, whatever a session holds. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { explain } from '../../core/index.ts';
import { nameOf, pathOf, valueText } from '../../stations/kit/words/why-numbers.ts';
import { symbolWord } from '../../stations/kit/words/why-symbols.ts';
import type { Topic } from '../../stations/kit/words/why.ts';

const folder = fileURLToPath(new URL('../../docs/examples/', import.meta.url));
const examples = readdirSync(folder).filter((name) => name.endsWith('.json'));
const explained = (name: string) =>
  explain(
    (JSON.parse(readFileSync(`${folder}${name}`, 'utf8')) as { facts: { kind: string; id: string }[] }).facts,
  );

describe('“Why?”', () => {
  it.each(examples)('names every number and every symbol of %s', (name) => {
    const all = explained(name);
    expect(all.length).toBeGreaterThan(0);
    for (const each of all) {
      const topic = each.path.split('.')[2] as Topic;
      expect(nameOf(each), each.path).toMatch(/^[A-Z].{3,}/);
      for (const { name: symbol } of each.inputs)
        expect(symbolWord(topic, symbol), `${symbol} in ${each.path}`).toMatch(/^.{4,}/);
    }
  });

  it('does not know a symbol that no formula has', () => {
    expect(symbolWord('cuff', 'zz')).toBeUndefined();
    expect(symbolWord('sole', 'D1')).toBeUndefined();
  });

  it('counts rounds from one, and shows a chance in per cent', () => {
    const all = explained('two-rounds-to-even.json');
    const second = all.find(({ path }) => path === 'sides.left.cuff.rounds.1.biasMm');
    expect(second && nameOf(second)).toBe('Round: bias (2)');
    const chance = all.find(({ path }) => path.endsWith('.cuff.chanceEven'))!;
    expect(valueText(chance.value, chance.unit, pathOf(chance))).toMatch(/^[<>]?\d+ %$/);
    expect(valueText(-1.5, '°')).toBe('−1.5°');
    expect(valueText(3, 'mm')).toBe('3 mm');
  });
});
