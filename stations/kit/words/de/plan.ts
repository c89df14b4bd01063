/** The sentences of the plan and the server in German, found by their English ones (`planText`). */
import { landmarkWord } from './landmarks.ts';
import { SENTENCES } from './plan/sentences.ts';
import type { Sentences } from './plan/sentences.ts';
import { Of, of } from './sides.ts';

/**
 * What may stand in a place of a template. `x` is translated in its turn, `list` part by part, a `spot` by the map of the
 * foot, `raw` stays.
 */
const PLACES: Readonly<Record<string, string>> = {
  side: 'left|right',
  Side: 'Left|Right',
  adj: 'lateral|medial',
  n: '[+−]?\\d+(?:\\.\\d+)?',
  x: '.+?',
  list: '.+?',
  parts: '.+?',
  spot: '.+?',
  raw: '.+?',
  time: '\\d\\d:\\d\\d',
  day: '\\d{1,2} [A-Z][a-z]+ \\d{4}',
};
const PLACE = /\{([A-Za-z]+)(\d*)(?::(\w+))?\}/g;

interface Template {
  readonly match: RegExp;
  readonly german: string;
}

const escaped = (text: string): string => text.replace(/[.*+?^$()|[\]\\]/g, '\\$&');

const templateOf = ([english, german]: readonly [string, string]): Template => ({
  match: new RegExp(
    `^${escaped(english).replace(PLACE, (_all, kind: string, n: string) => `(?<${kind}${n}>${PLACES[kind]!})`)}$`,
  ),
  german,
});

/** `25 November 2026` as a German writes it. */
const dayOf = (english: string): string =>
  new Intl.DateTimeFormat('de-DE', { dateStyle: 'long', timeZone: 'UTC' }).format(
    new Date(`${english} 00:00 UTC`),
  );

const sides = (english: string) => (english.toLowerCase() === 'left' ? 'left' : 'right');

function placed(kind: string, found: string, ending: string | undefined): string | null {
  switch (kind) {
    case 'side':
    case 'Side': {
      const form = (ending ?? 's') as 'e' | 'en' | 'er' | 'es' | 's' | 'S';
      if (form === 's') return sides(found) === 'left' ? 'links' : 'rechts';
      if (form === 'S') return sides(found) === 'left' ? 'Links' : 'Rechts';
      return kind === 'Side' ? Of(sides(found), form) : of(sides(found), form);
    }
    case 'adj':
      return found === 'lateral' ? 'außen' : 'innen';
    case 'day':
      return dayOf(found);
    case 'n':
      return found.replace('.', ',');
    case 'x':
      return translated(found);
    case 'list':
      return joined(found.split(/, | and /), (parts) =>
        parts.length < 2 ? parts[0]! : `${parts.slice(0, -1).join(', ')} und ${parts.at(-1)!}`,
      );
    case 'parts':
      return joined(found.split('; '), (parts) => parts.join('; '));
    case 'spot':
      return (landmarkWord as Readonly<Record<string, string>>)[found] ?? found;
    default:
      return found;
  }
}

/** Null as soon as one part has no German. */
function joined(parts: readonly string[], join: (parts: readonly string[]) => string): string | null {
  const german = parts.map(translated);
  return german.every((part) => part !== null) ? join(german) : null;
}

function filled({ match, german }: Template, english: string): string | null {
  const groups = match.exec(english)?.groups;
  if (!groups && !match.test(english)) return null;
  let whole = true;
  const text = german.replace(PLACE, (_all, kind: string, n: string, ending?: string) => {
    const found = groups?.[`${kind}${n}`] ?? '';
    const word = placed(kind, found, ending);
    whole &&= word !== null;
    return word ?? '';
  });
  return whole ? text : null;
}

let templates: readonly Template[] | undefined;
let taught: Sentences = [];

function translated(english: string): string | null {
  templates ??= [...taught, ...SENTENCES].map(templateOf);
  for (const template of templates) {
    const german = filled(template, english);
    if (german !== null) return german;
  }
  // A phrase at the start of a sentence.
  const phrase = /^(The|What) /.test(english) ? `${english[0]!.toLowerCase()}${english.slice(1)}` : null;
  const inside = phrase === null || / disagree,|[.:]/.test(phrase) ? null : translated(phrase);
  if (inside !== null) return `${inside[0]!.toUpperCase()}${inside.slice(1)}`;
  // Several sentences in a row.
  const sentences = english.split(/(?<=[.?!]) (?=[A-Z\d])/);
  return sentences.length > 1 ? joined(sentences, (parts) => parts.join(' ')) : null;
}

const known = new Map<string, string | null>();
const MOST_KNOWN = 500;

/** Sentences of a part of the page that comes later. */
export function teach(more: Sentences): void {
  taught = [...more, ...taught];
  templates = undefined;
  known.clear();
}

/** The German of one English text; null where the catalogue has none. */
export function germanOf(english: string): string | null {
  if (english === '') return '';
  const before = known.get(english);
  if (before !== undefined) return before;
  if (known.size >= MOST_KNOWN) known.clear();
  const german = translated(english);
  known.set(english, german);
  return german;
}

export const planText = (english: string): string => germanOf(english) ?? english;
