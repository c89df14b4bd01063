/** Places of an adjuster that are not equal millimetres, such as those of a round eccentric, as one line of text. */
import { typedPlaces } from '../../../core/index.ts';
import type { TypedPlace } from '../../../core/index.ts';
import { shown } from '../numbers.ts';

/** Null when a part cannot be read, or a label stands there twice. */
export function parsePlaces(text: string): readonly TypedPlace[] | null {
  const read = typedPlaces(text);
  return read.ok ? read.places : null;
}

export const placesText = (places: readonly TypedPlace[] | undefined): string =>
  (places ?? []).map(({ label, mm }) => `${label} ${shown(mm, 2)}`).join('; ');
