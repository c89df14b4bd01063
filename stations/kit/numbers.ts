/** Numbers as people type and read them. Comma and point are both a decimal sign; thousands are never grouped. */
import { locale } from './language.ts';

export { typedNumber as parseNumber } from '../../core/index.ts';

/**
 * Without the unit that an instrument types after its number, where it is the field's own: `'12.34mm'` and `'12,3 mm'`
 * are `'12.34'` and `'12,3'` in a field of millimetres.
 */
export function withoutUnit(typed: string, unit: 'mm' | '°' | ''): string {
  const own = { mm: /\s*mm\s*$/i, '°': /\s*(°|deg)\s*$/i, '': null }[unit];
  return own ? typed.replace(own, '').trim() : typed.trim();
}

/** The unit that stands after a number, as it was typed; null where there is none. */
export const unitTyped = (typed: string): string | null =>
  /^[+\-−]?[\d.,]+\s*([a-z°"″]+)$/i.exec(typed.trim())?.[1] ?? null;

const FORMAT = new Intl.NumberFormat(locale, { useGrouping: false, maximumFractionDigits: 20 });

/** The decimal sign of this station's language; both are taken. */
export const POINT = FORMAT.format(0.5).charAt(1);

/** At most `digits` decimals, none that say nothing, a true minus sign: `−1.5`, `7`; with a comma in German. */
export function shown(value: number, digits = 1): string {
  const rounded = Number(value.toFixed(digits));
  return FORMAT.format(Object.is(rounded, -0) ? 0 : rounded).replace('-', '−');
}

/** As `shown`, with a plus sign for what is above zero: `+1.5`. */
export const signed = (value: number, digits = 1): string => {
  const text = shown(value, digits);
  return Number(value.toFixed(digits)) > 0 ? `+${text}` : text;
};

/** Rounded to whole per cent, but never 0 or 100 for what is not certain. */
export const percent = (chance: number): string =>
  `${chance > 0 && chance < 0.01 ? '<1' : chance < 1 && chance > 0.99 ? '>99' : Math.round(chance * 100)} %`;
