/** A station says the server's no in its own language, whatever the server answers. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { NO_CODES } from '../../core/index.ts';
import { filesUnder, isProse, piecesIn } from '../helpers/prose.ts';
import type * as words from '../../stations/kit/words/answers.ts';
import { SERVER as SENTENCES } from '../../stations/kit/words/de/plan/server.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const SERVER = filesUnder(`${ROOT}server`);

interface No {
  readonly code: string;
  readonly text: string;
}

/** What a text or template says, with 7 for each placed value. */
function wordsOf(node: ts.Expression | undefined): string {
  if (!node) return '';
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isTemplateExpression(node))
    return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('7');
  return '7';
}

/** Every `new No(status, code, text)` of a source file. */
function nosOf(path: string): No[] {
  const file = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  const found: No[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNewExpression(node) && node.expression.getText() === 'No')
      found.push({ code: wordsOf(node.arguments?.[1]), text: wordsOf(node.arguments?.[2]) });
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

const NOS = SERVER.flatMap(nosOf);

type Catalogue = typeof words;
async function inLanguage(language: 'en' | 'de'): Promise<Catalogue> {
  vi.resetModules();
  vi.stubGlobal('localStorage', { getItem: () => language });
  return (await import('../../stations/kit/words/answers.ts')) as Catalogue;
}

let en: Catalogue;
let de: Catalogue;
beforeAll(async () => {
  en = await inLanguage('en');
  de = await inLanguage('de');
});
afterAll(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

describe('a no of the server', () => {
  it('has a code that stations know, and each that they know is given somewhere', () => {
    expect(NOS.length).toBeGreaterThan(40);
    expect([...new Set(NOS.map(({ code }) => code))].sort()).toEqual([...NO_CODES].sort());
  });

  it('has a sentence of its own in both languages', () => {
    for (const { answers } of [en, de]) {
      const said = NO_CODES.map((code) => answers[code]);
      expect(new Set(said).size).toBe(NO_CODES.length);
      expect(said.filter((text) => !/^\p{Lu}.+\.$/u.test(text))).toEqual([]);
    }
    expect(NO_CODES.filter((code) => en.answers[code] === de.answers[code])).toEqual([]);
  });

  it('is never said in another language, with whatever text it comes', () => {
    const said = NOS.map((no) => de.sayNo(no, 'nicht da'));
    expect(
      said.filter((text) => !text || /\b(the|this|of|is|are|your|wait|too|at most)\b/i.test(text)),
    ).toEqual([]);
    expect(
      de.sayNo({ code: 'wrong-pin', text: 'This is not the PIN. Wait 30 seconds before the next try.' }, ''),
    ).toBe('Das ist nicht die PIN. Vor dem nächsten Versuch 30 Sekunden warten.');
    expect(
      en.sayNo({ code: 'wrong-pin', text: 'This is not the PIN. Wait 30 seconds before the next try.' }, ''),
    ).toBe('This is not the PIN. Wait 30 seconds before the next try.');
  });

  it('of a newer or a broken server, or none at all, has words too', () => {
    for (const { sayNo, answers } of [en, de]) {
      expect(sayNo({ code: 'unreachable', text: '' }, 'away')).toBe('away');
      expect(sayNo({ code: 'of-tomorrow', text: '' }, 'away')).toBe(answers.failed);
      expect(
        sayNo({ code: 'shape', text: 'pin: Too small: expected string to have >=6 characters.' }, ''),
      ).toBe(answers.shape);
    }
  });
});

describe('what the server says of itself in the corner', () => {
  it('has its German, sentence by sentence', () => {
    const english = SENTENCES.map(([text]) => text.replace(/\{\w+(:\w+)?\}/g, '\n')).join('\n');
    const pieces = ['server/notices.ts', 'server/trouble.ts', 'server/daily.ts']
      .flatMap((name) => piecesIn(`${ROOT}${name}`, ROOT))
      .flatMap(({ text, at }) => text.split(/(?<=[.:]) (?=[A-Z])/).map((part) => ({ text: part.trim(), at })))
      .filter(({ text }) => isProse(text) && /^[A-Z](?!ELECT)/.test(text));
    expect(pieces.length).toBeGreaterThan(15);
    expect(pieces.filter(({ text }) => !english.includes(text))).toEqual([]);
  });
});
