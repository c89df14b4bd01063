/**
 * The words of a plan, in English. A sign never travels without its word: outward, up, medial. Stations have
 * catalogues of their own for everything else.
 */
import { pivotWord } from '../frame.ts';
import type { Side } from '../frame.ts';

/** One decimal at most, no trailing zero, no minus zero: 3, 2.5, −1. */
export function short(value: number, digits = 1): string {
  const text = Math.abs(value).toFixed(digits);
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return value < 0 && Number(trimmed) !== 0 ? `−${trimmed}` : trimmed;
}

export const mmWords = (value: number): string => `${short(value)} mm`;
export const degWords = (value: number): string => `${short(value)}°`;
/** A place of a pivot with its sign in view: +3 mm, −2.5 mm, 0. */
export const placeWords = (value: number): string =>
  short(value, 2) === '0' ? '0' : `${value > 0 ? '+' : ''}${short(value, 2)} mm`;

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
export const boot = (side: Side): string => `${capital(side)} boot`;

/** `down 3 marks`, `up 2.5 mm`, `stays`. */
export function moveWords(byMm: number, marks: number | undefined): string {
  const way = pivotWord(short(byMm, 2) === '0' ? 0 : byMm);
  if (way === 'stay') return 'stays';
  if (marks === undefined) return `${way} ${short(Math.abs(byMm), 2)} mm`;
  return `${way} ${Math.abs(marks)} ${Math.abs(marks) === 1 ? 'mark' : 'marks'}`;
}

/** A side of the leg named after the sign of a bias: positive, the leg stands lateral. */
export const leansTo = (angle: number): string => (angle > 0 ? 'outward' : 'inward');

export const percent = (chance: number): string => `${Math.round(chance * 100)} %`;

/** `a`, `a and b`, `a, b and c`. */
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;

/** A cant in words: `1.5°, thick edge medial`, `flat`. */
export const cantWords = (cantDeg: number): string =>
  cantDeg === 0 ? 'flat' : `${degWords(Math.abs(cantDeg))}, thick edge ${cantDeg > 0 ? 'medial' : 'lateral'}`;
