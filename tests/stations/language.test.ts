/** Both catalogues of words, as a station gets them: nothing missing, nothing left in English, the plan's sentences too. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { readdirSync, readFileSync } from 'node:fs';
import { plan } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';

const WORDS = new URL('../../stations/kit/words/', import.meta.url);
const EXAMPLES = new URL('../../docs/examples/', import.meta.url);
const CATALOGUES = readdirSync(WORDS).filter((name) => name.endsWith('.ts'));

/** The same in both languages: signs, units, names. */
const ALIKE = new Set([
  'Fibula',
  'mm',
  'Name',
  'Ticket',
  'Tickets',
  'Station',
  'L',
  'R',
  'Mondopoint',
  '+ ½',
  'neutral',
  'PIN',
  'Stand',
  'so',
  'Server',
  'parallel',
  'npm run backup -- FILE',
]);

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

/** A fresh page of a station in this language. */
async function words(language: 'en' | 'de', name: string): Promise<Record<string, unknown>> {
  vi.resetModules();
  vi.stubGlobal('localStorage', { getItem: () => language });
  return (await import(new URL(name, WORDS).pathname)) as Record<string, unknown>;
}

/** Every text of a catalogue by its path. */
const texts = (value: unknown, path: string): [string, string][] => {
  if (typeof value === 'string') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => texts(each, `${path}.${key}`));
};

const functions = (value: unknown, path: string): string[] => {
  if (typeof value === 'function') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => functions(each, `${path}.${key}`));
};

const hasWord = (text: string) => /[A-Za-z]{2}/.test(text);

describe('the words of a station', () => {
  it.each(CATALOGUES)('of %s are all there in both languages', async (name) => {
    const en = await words('en', name);
    const de = await words('de', name);
    expect(functions(de, name)).toEqual(functions(en, name));
    const german = new Map(texts(de, name));
    const english = texts(en, name);
    expect([...german.keys()]).toEqual(english.map(([path]) => path));
    // Words that are data for both languages.
    const data = (path: string) => /\.(skier|ITEMS)\.|\.entries\.\d+\.name$/.test(path);
    const left = english.filter(
      ([path, text]) => hasWord(text) && german.get(path) === text && !ALIKE.has(text) && !data(path),
    );
    expect(left).toEqual([]);
    expect([...german].filter(([, text]) => text.includes('undefined'))).toEqual([]);
  });

  it('say numbers with a comma in German, and take both', async () => {
    const { shown, signed, parseNumber } = (await words('de', '../numbers.ts')) as unknown as {
      shown(value: number, digits?: number): string;
      signed(value: number): string;
      parseNumber(typed: string): number | null;
    };
    expect([shown(7.25), shown(-1.5), shown(1234.5), signed(0.5)]).toEqual(['7,3', '−1,5', '1234,5', '+0,5']);
    expect([parseNumber('7,5'), parseNumber('7.5')]).toEqual([7.5, 7.5]);
  });
});

/** What a plan says to people, by where it says it. */
const said = (facts: readonly Fact[]): string[] => {
  const { next, problems, cautions, steps } = plan(facts);
  return [...next, ...problems, ...cautions]
    .map(({ text }) => text)
    .concat(steps.flatMap(({ because }) => because));
};

describe('the plan', () => {
  const files = readdirSync(EXAMPLES).filter((name) => name.endsWith('.json'));

  it.each(files)('of %s says all in German, at every entry', async (name) => {
    const { germanOf } = (await words('de', 'de/plan.ts')) as { germanOf(text: string): string | null };
    // What a page shows problems and cautions with.
    await import(new URL('plan-problems.ts', WORDS).pathname);
    const { facts } = JSON.parse(readFileSync(new URL(name, EXAMPLES), 'utf8')) as { facts: Fact[] };
    const all = new Set(facts.flatMap((_fact, i) => said(facts.slice(0, i + 1))));
    expect(all.size).toBeGreaterThan(10);
    expect([...all].filter((text) => germanOf(text) === null)).toEqual([]);
  });

  it('leaves a sentence that it does not know as it is', async () => {
    const { planText } = (await words('de', 'plan.ts')) as { planText(text: string): string };
    expect(planText('Nobody ever said this.')).toBe('Nobody ever said this.');
    expect(
      planText(
        'Left boot: lateral pivot down 3 marks, to −3 mm; medial pivot stays at 0. The cuff tips 1.5° inward. Expect 9.5 mm medial and 9 mm lateral, then read again.',
      ),
    ).toBe(
      'Linker Schuh: Drehpunkt außen 3 Striche tief, auf −3 mm; Drehpunkt innen bleibt bei 0. Der Schaft kippt 1,5° nach innen. Erwartet: innen 9,5 mm, außen 9 mm; danach noch einmal messen.',
    );
  });
});
