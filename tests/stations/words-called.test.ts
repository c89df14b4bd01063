/** Every function of the catalogues, called with arguments of each kind that its type allows, in both languages. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { functionsOf } from '../helpers/samples.ts';
import type { CatalogueFunction } from '../helpers/samples.ts';

const FOLDER = fileURLToPath(new URL('../../stations/kit/words/', import.meta.url));
const FILES = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.ts'))
  .map((name) => `${FOLDER}${name}`);
const FUNCTIONS = functionsOf(FILES);

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

async function moduleIn(language: 'en' | 'de', file: string): Promise<object> {
  vi.resetModules();
  vi.stubGlobal('localStorage', { getItem: () => language });
  return (await import(file)) as object;
}

type Call = (...args: readonly unknown[]) => unknown;
const at = (module: object, path: readonly string[]): Call =>
  path.reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], module) as Call;

/** All that a call says, of whatever it gives back. */
const texts = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(texts)
      : [];

function say(module: object, { path }: CatalogueFunction, args: readonly unknown[]): string {
  try {
    return texts(at(module, path)(...args)).join(' | ');
  } catch (error) {
    return `threw ${String(error)}`;
  }
}

/** Take the core's or the server's English: tests/stations/plan-german.test.ts and answers.test.ts ask them. */
const TRANSLATORS = new Set([
  'planText',
  'fromServer',
  'formulaText',
  'sayNo',
  'skierSentence',
  'notTaken',
  'faultText',
]);
/** Names, signs and units alone; and what is said in the skier's language, whatever the station's. */
const ALIKE =
  /^(home\.pageTitle|ago\.minutes|spotWord|spotSays\.target|server\.lastGoodIs|size|placeWords|foreAft\.mark|desk\.surely|monthText|legsWords\.(point|read|ticket)|spanText|numbersWords\.(minutes|hours|first\.says)|skier\..*)$/;

const BROKEN = /undefined|NaN|\[object|Invalid Date|^threw/;
/** Names and numbers that were given, in any order. */
const given = (text: string): string =>
  [...new Set(text.toLowerCase().match(/ærn|øyk|ūma|\b(?:7|11|13|17)\b/g))].sort().join(' ');

describe('the functions of', () => {
  it.each(FILES.map((file) => file.replace(FOLDER, '')))(
    '%s say what they are given, in both languages',
    async (name) => {
      const file = `${FOLDER}${name}`;
      const functions = FUNCTIONS.get(file)!;
      const [en, de] = [await moduleIn('en', file), await moduleIn('de', file)];
      const wrong: string[] = [];
      for (const one of functions) {
        let differs = false;
        for (const args of one.calls) {
          const [english, german] = [say(en, one, args), say(de, one, args)];
          differs ||= english !== german || !/[a-z]{2}/i.test(english);
          const call = `${one.name}(${JSON.stringify(args).slice(1, -1)})`;
          for (const text of [english, german]) if (BROKEN.test(text)) wrong.push(`${call}: ${text}`);
          if (!TRANSLATORS.has(one.name) && given(english) !== given(german))
            wrong.push(`${call}: ${english} / ${german}`);
        }
        if (!differs && !TRANSLATORS.has(one.name) && !ALIKE.test(one.name))
          wrong.push(`${one.name}: the same in both: ${say(en, one, one.calls[0]!)}`);
      }
      expect(wrong).toEqual([]);
    },
  );

  it('all catalogues are many, and each was found', () => {
    const all = [...FUNCTIONS.values()].flat();
    expect(all.length).toBeGreaterThan(150);
    expect(all.filter(({ calls }) => calls.length === 0)).toEqual([]);
    expect(given('Ærn, 7 and 13; aern')).toBe('13 7 ærn');
    expect(['a undefined b', 'NaN mm', '[object Object]', 'threw x'].every((text) => BROKEN.test(text))).toBe(
      true,
    );
  });
});
