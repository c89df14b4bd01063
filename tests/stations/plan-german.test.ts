/**
 * All that the core says to people, in German: what plans of many sessions say, and each piece of a sentence in the
 * core's source, whether a session here comes to it or not.
 */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { explain, plan, SETTINGS } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { RACE_RULES } from '../../core/maths/racing.ts';
import { SOLE_PRESETS } from '../../core/maths/standards.ts';
import { filesUnder, isProse, piecesIn } from '../helpers/prose.ts';
import { START } from '../properties/check.ts';
import { honestIntent, someSession, written } from '../properties/sessions.ts';
import { story } from '../properties/story.ts';
import { PROSE } from '../../stations/kit/words/de/why-formulas.ts';
import { CAUTIONS } from '../../stations/kit/words/de/plan/cautions.ts';
import { PROBLEMS } from '../../stations/kit/words/de/plan/problems.ts';
import { PROVENANCE } from '../../stations/kit/words/de/plan/provenance.ts';
import { REASONS } from '../../stations/kit/words/de/plan/reasons.ts';
import { SENTENCES } from '../../stations/kit/words/de/plan/sentences.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const EXAMPLES = filesUnder(`${ROOT}docs/examples`, '.json');

let germanOf: (text: string) => string | null;
let formulaText: (text: string) => string;
let symbolWord: (topic: never, symbol: string) => string | undefined;
beforeAll(async () => {
  vi.resetModules();
  vi.stubGlobal('localStorage', { getItem: () => 'de' });
  ({ germanOf } = await import('../../stations/kit/words/de/plan.ts'));
  await import('../../stations/kit/words/plan-reasons.ts');
  await import('../../stations/kit/words/plan-server.ts');
  await import('../../stations/kit/words/plan-origins.ts');
  await import('../../stations/kit/words/plan-problems.ts');
  ({ formulaText } = await import('../../stations/kit/words/why-formulas.ts'));
  ({ symbolWord } = await import('../../stations/kit/words/why-symbols.ts'));
});
afterAll(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

/** All that a plan says to people. */
function said(facts: readonly Fact[]): string[] {
  const { next, problems, cautions, steps, reasons, sides } = plan(facts);
  return [
    ...[...next, ...problems, ...cautions, ...Object.values(reasons)].map(({ text }) => text),
    ...steps.flatMap(({ because }) => because),
    ...Object.values(sides).flatMap(({ cuff, sole }) => [
      ...[cuff.move?.text, cuff.extension?.text, cuff.readAgain].filter((text) => typeof text === 'string'),
      ...(cuff.extension?.before ?? []),
      ...(cuff.reading?.staleBecause ?? []),
      ...cuff.rounds.flatMap(({ progress }) => progress ?? []),
      ...[
        sole.racing?.standHeightMm.provenance,
        sole.racing?.soleHeightMm.provenance,
        sole.racing?.rules,
      ].filter((text) => typeof text === 'string'),
    ]),
  ];
}

/** Sessions of any kind, those that a shop would write, and the documented ones at every entry. */
function sessions(): Fact[][] {
  const documented = EXAMPLES.flatMap((path) => {
    const { facts } = JSON.parse(readFileSync(path, 'utf8')) as { facts: Fact[] };
    return facts.map((_fact, i) => facts.slice(0, i + 1));
  });
  const sample = (of: fc.Arbitrary<Fact[]>): Fact[][] => fc.sample(of, { seed: START, numRuns: 250 });
  return [...documented, ...sample(someSession), ...sample(honestSession)];
}

/** What stations write in a whole job, in any order. */
const honestSession = fc
  .array(honestIntent, { maxLength: 40, size: 'max' })
  .map((intents) => written(intents, story({ basis: true, service: 'full' }).facts));

/** The same sentence with other numbers and names counts once in what is reported. */
const shape = (text: string): string =>
  text.replace(/[+−]?\d+(\.\d+)?/g, '#').replace(/left|right/gi, 'side');

/** Where in the source a formula stands, and which kinds of entries it takes. */
const FILE = /core\/\S+, .*$|\b[a-z]+\.[a-z]+\b/g;

/** Words of English that no German text, no symbol and no name of a file has. */
const ENGLISH =
  /\b(the|of|and|with|by|when|which|before|after|read|measured|recorded|mean|cuff|boot|sole is|error)\b/i;

describe('the core, in German', () => {
  it('has every sentence of many plans', () => {
    const all = new Map(
      sessions()
        .flatMap(said)
        .map((text) => [shape(text), text]),
    );
    expect(all.size).toBeGreaterThan(200);
    expect([...all.values()].filter((text) => germanOf(text) === null)).toEqual([]);
    // Names that people gave stand in a sentence as they are.
    const left = [...all.values()]
      .map((text) => germanOf(text)!)
      .filter((text) => /\b(the|boot|is|not)\b(?!\.)/.test(text));
    expect(left).toEqual([]);
  });

  it('has every piece of a sentence in the source of the plan', () => {
    const english = [...SENTENCES, ...CAUTIONS, ...PROBLEMS, ...PROVENANCE, ...REASONS]
      .map(([text]) => text.replace(/\{\w+(:\w+)?\}/g, '\n'))
      .join('\n');
    const files = filesUnder(`${ROOT}core/guide`).filter((path) => !path.includes('/explain/'));
    const pieces = files.flatMap((path) => piecesIn(path, ROOT)).filter(({ text }) => isProse(text));
    expect(pieces.length).toBeGreaterThan(300);
    // A sentence after another one is a sentence of its own.
    const missing = pieces.flatMap(({ text, at }) =>
      text
        .split(/(?<=[.?!:]) (?=[A-Z])|(?<=\.)\s*$/)
        .map((part) => part.trim())
        .filter(
          (part) =>
            isProse(part) && !english.includes(part) && !english.includes(part.replace(/^[.;:] ?/, '')),
        )
        .map((part) => `${at}: ${part}`),
    );
    expect(missing).toEqual([]);
  });

  it('has where each figure comes from, and each standard', () => {
    const limits = Object.values(RACE_RULES).flatMap((rules) => [
      `${rules.title}, ${rules.season}`,
      rules.standHeightMm.provenance,
      rules.soleHeightMm.provenance,
    ]);
    const texts = [
      ...Object.values(SETTINGS).map(({ provenance }) => provenance),
      ...Object.values(SOLE_PRESETS).map(({ title }) => title),
      ...limits,
    ];
    expect(texts.filter((text) => germanOf(text) === null)).toEqual([]);
  });

  it('has the prose of every formula and every symbol', () => {
    const all = sessions().flatMap((facts) => explain(facts));
    const texts = new Set(all.flatMap(({ formula, source }) => [formula, source]));
    expect(texts.size).toBeGreaterThan(90);
    const left = [...texts].map(formulaText).filter((text) => ENGLISH.test(text.replace(FILE, '')));
    expect(left).toEqual([]);
    const symbols = new Set(
      all.flatMap(({ path, inputs }) => inputs.map(({ name }) => `${path.split('.')[2]} ${name}`)),
    );
    const nameless = [...symbols].filter((each) => {
      const [topic, ...symbol] = each.split(' ');
      return !symbolWord(topic as never, symbol.join(' '));
    });
    expect(nameless).toEqual([]);
  });

  it('has the prose of formulas that no session here comes to', () => {
    const known = PROSE.map(([text]) => text).join('\n');
    const bare = (text: string) => text.replace(FUNCTION, '').replace(FILE, '');
    const FUNCTION = /\b(a?sin|a?cos|a?tan|max|min|floor)\b/g;
    const pieces = filesUnder(`${ROOT}core/guide/explain`)
      .flatMap((path) => piecesIn(path, ROOT))
      .filter(({ text }) => /[a-z]{2,},? [a-z]{2,}/i.test(bare(text)));
    const left = pieces
      .filter(({ text }) => {
        const german = formulaText(text);
        return german === text && !known.includes(text.trim().split(' (')[0]!);
      })
      .map(({ text, at }) => `${at}: ${text}`);
    expect(left).toEqual([]);
  });
});
