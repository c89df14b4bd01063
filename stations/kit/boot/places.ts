/** Places of an adjuster that are not equal millimetres, such as those of a round eccentric, as one line of text. */
import { parseNumber, shown } from '../numbers.ts';

export interface Place {
  readonly label: string;
  readonly mm: number;
}

/** `A −4; B 0; C 3,5`: each its label, then millimetres up from factory neutral. Null when a part cannot be read. */
export function parsePlaces(text: string): Place[] | null {
  const parts = text
    .split(';')
    .map((part) => part.trim())
    .filter(Boolean);
  const places = parts.map((part) => {
    const [, label, typed] = /^(.{1,20}?)\s+(\S+)$/.exec(part) ?? [];
    const mm = typed === undefined ? null : parseNumber(typed);
    return label === undefined || mm === null ? null : { label, mm };
  });
  return places.every((place) => place !== null) ? places : null;
}

export const placesText = (places: readonly Place[] | undefined): string =>
  (places ?? []).map(({ label, mm }) => `${label} ${shown(mm, 2)}`).join('; ');
