/** Numbers and places as people and spreadsheets write them. Comma and point are both a decimal sign. */

/** `'7,5'` and `'7.5'` are 7.5, `'−2'` is −2; null for anything that is not one plain number. Thousands are never grouped. */
export function typedNumber(typed: string): number | null {
  const text = typed.trim().replace('−', '-').replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : null;
}

/** A place of an adjuster: its label, and mm up from factory neutral. */
export interface TypedPlace {
  readonly label: string;
  readonly mm: number;
}
export type TypedPlaces =
  | { readonly ok: true; readonly places: readonly TypedPlace[] }
  /** The part that cannot be read, or the label that stands there twice. */
  | { readonly ok: false; readonly unread: string }
  | { readonly ok: false; readonly twice: string };

/** `A −4; B 0; C 3,5`: each its label, then millimetres. Of an empty text, none. */
export function typedPlaces(text: string): TypedPlaces {
  const places: TypedPlace[] = [];
  for (const part of text
    .split(';')
    .map((each) => each.trim())
    .filter(Boolean)) {
    const [, label, typed] = /^(.{1,20}?)\s+(\S+)$/.exec(part) ?? [];
    const mm = typed === undefined ? null : typedNumber(typed);
    if (label === undefined || mm === null) return { ok: false, unread: part };
    if (places.some((place) => place.label === label)) return { ok: false, twice: label };
    places.push({ label, mm });
  }
  return { ok: true, places };
}
