/** Sentences that stand outside the catalogues of words: what a station shows belongs to `stations/kit/words`. */
import { parse } from 'svelte/compiler';
import { piecesOf } from '../prose.ts';
import type { SourceFile } from './files.ts';

/** What is read or heard: of an element, and of our own parts. */
const SHOWN = new Set([
  ...[
    'alt',
    'aria-label',
    'aria-description',
    'aria-roledescription',
    'aria-valuetext',
    'title',
    'placeholder',
  ],
  ...['label', 'legend', 'hint', 'text', 'caption'],
]);
const HIDDEN = new Set(['class', 'style', 'd', 'transform', 'points', 'viewBox', 'preserveAspectRatio']);

/** The same in every language. */
const NO_WORDS = new Set(['mm', 'Fibula']);
/** Names that stand in the record in English; `landmarkWord` has the words for them. */
const RECORDED = new Set(['stations/kit/drawing/foot.ts']);

const LETTERS = /\p{L}{2,}/u;
const TWO_WORDS = /\p{L}{2,}[,.:]? \p{L}{2,}/u;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string';

/** Texts of a part's template: all that stands free or in what is read, and prose in any expression. */
function inTemplate(fragment: unknown): { readonly start: number; readonly said: string }[] {
  const found: { start: number; said: string }[] = [];
  const visit = (value: unknown, attribute: string | null): void => {
    if (Array.isArray(value)) return void value.forEach((each) => visit(each, attribute));
    if (!isNode(value)) return;
    const { type, start } = value;
    const name = typeof value['name'] === 'string' ? value['name'] : '';
    if (type === 'StyleDirective' || (type === 'Attribute' && HIDDEN.has(name))) return;
    const inside = type === 'Attribute' ? name : attribute;
    const isRead = inside === null || SHOWN.has(inside);
    const said =
      type === 'Text'
        ? value['data']
        : type === 'Literal'
          ? value['value']
          : type === 'TemplateElement'
            ? (value['value'] as { cooked: string }).cooked
            : null;
    // A short word in an expression may be a key of a catalogue.
    const wanted = type !== 'Literal' && isRead ? LETTERS : TWO_WORDS;
    if (typeof said === 'string' && wanted.test(said)) found.push({ start, said });
    for (const inner of Object.values(value)) visit(inner, inside);
  };
  visit(fragment, null);
  return found;
}

/** `path:line: text` of each sentence in a program, or in a part's template and scripts. */
export function strayStrings({ path, text }: SourceFile): string[] {
  if (RECORDED.has(path)) return [];
  const prose = (code: string, firstLine: number) =>
    piecesOf(code, path, firstLine)
      .filter(({ text: said }) => TWO_WORDS.test(said))
      .map(({ text: said, at }) => `${at}: ${said}`);
  if (!path.endsWith('.svelte')) return prose(text, 1);
  const lineOf = (start: number) => text.slice(0, start).split('\n').length;
  const { fragment, instance, module } = parse(text, { modern: true });
  return [
    ...inTemplate(fragment)
      .map(({ start, said }) => ({ start, said: said.trim().replace(/\s+/g, ' ') }))
      .filter(({ said }) => !NO_WORDS.has(said))
      .map(({ start, said }) => `${path}:${lineOf(start)}: ${said}`),
    ...[instance, module].flatMap((script) => {
      if (!script) return [];
      const { start, end } = script.content as unknown as { start: number; end: number };
      return prose(text.slice(start, end), lineOf(start));
    }),
  ];
}
