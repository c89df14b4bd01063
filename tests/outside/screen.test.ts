/** What a screen must give the eye: the contrast formula on known pairs, then the stations' own colours. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrast } from '../helpers/contrast.ts';

describe('contrast ratio (WCAG 2.x definition, exact maths)', () => {
  it.each([
    ['#000000', '#ffffff', 21],
    ['#767676', '#ffffff', 4.542],
    ['#777777', '#ffffff', 4.478],
    ['#595959', '#ffffff', 7.005],
    ['#0000ff', '#ffffff', 8.592],
    ['#ffff00', '#000000', 19.556],
  ])('%s on %s is %d', (text, ground, ratio) => {
    expect(contrast(text, ground)).toBeCloseTo(ratio, 3);
    expect(contrast(ground, text)).toBe(contrast(text, ground));
  });

  it('the same colour twice has none', () => {
    expect(contrast('#123456', '#123456')).toBe(1);
  });

  it('a word is no colour', () => {
    expect(() => contrast('black', '#ffffff')).toThrow('black');
  });
});

const css = readFileSync(new URL('../../stations/kit/tokens.css', import.meta.url), 'utf8');
const colours = (text: string): Record<string, string> =>
  Object.fromEntries([...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6});/g)].map((m) => [m[1]!, m[2]!]));
const [day, night] = css.split('@media (prefers-color-scheme: dark)').map(colours) as [
  Record<string, string>,
  Record<string, string>,
];
const THEMES = { light: day, dark: { ...day, ...night } };

/** Which text stands on which ground. */
const TEXTS: readonly (readonly [text: string, ground: string])[] = [
  ...['paper', 'sheet', 'sunk'].flatMap((ground) => [['ink', ground] as const, ['ink-2', ground] as const]),
  ['act-ink', 'act'],
  ['act-ink', 'act-press'],
  ['now', 'now-soft'],
  ['good', 'good-soft'],
  ['stop', 'stop-soft'],
  ['warn-ink', 'warn'],
];

describe.each(Object.entries(THEMES))('the stations’ colours, %s', (_, theme) => {
  it.each(TEXTS)('%s on %s has the 7:1 of enhanced contrast (WCAG 2.2, 1.4.6, read)', (text, ground) => {
    expect(contrast(theme[text]!, theme[ground]!)).toBeGreaterThanOrEqual(7);
  });

  it.each(['paper', 'sheet', 'sunk'])(
    'an edge and the focus on %s have 3:1 (WCAG 2.2, 1.4.11, memory)',
    (ground) => {
      expect(contrast(theme['edge']!, theme[ground]!)).toBeGreaterThanOrEqual(3);
      expect(contrast(theme['focus']!, theme[ground]!)).toBeGreaterThanOrEqual(3);
    },
  );
});
