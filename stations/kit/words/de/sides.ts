/** German says left and right with an ending: linker Schuh, linke Sohle, linkes Bein. */
import type { Adjuster, Side } from '../../../../core/index.ts';

/** `of('left', 'en')`: `linken`. */
export const of = (side: Side, ending: 'e' | 'en' | 'er' | 'es'): string =>
  `${side === 'left' ? 'link' : 'recht'}${ending}`;

/** At the start of a sentence: `Linker`. */
export const Of = (side: Side, ending: 'e' | 'en' | 'er' | 'es'): string =>
  `${side === 'left' ? 'Link' : 'Recht'}${ending}`;

export const sideWord = (side: Side): string => (side === 'left' ? 'links' : 'rechts');
export const Sided = (side: Side): string => (side === 'left' ? 'Links' : 'Rechts');

/** Medial is inside, lateral is outside: the words of the workshop. */
export const place = (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'außen' : 'innen');
