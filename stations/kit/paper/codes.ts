/**
 * Codes to scan. A QR code for cameras and imaging scanners; a Code 128 beside it for the laser scanners that many
 * shops have, which read bars alone.
 */
import JsBarcode from 'jsbarcode';
import { encode } from 'uqr';

/** Dark parts in modules, the light margin that each code needs around it included. */
export interface QrShape {
  readonly size: number;
  /** One path of unit squares. */
  readonly path: string;
}

/** Light modules around a QR code, by ISO/IEC 18004. */
const QUIET = 4;

export function qrOf(text: string): QrShape {
  const { data, size } = encode(text, { ecc: 'M', border: QUIET });
  const path = data
    .flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])))
    .join('');
  return { size, path };
}

export interface BarsShape {
  readonly modules: number;
  readonly bars: readonly { readonly x: number; readonly width: number }[];
}

/** Light modules at each end of a Code 128, by ISO/IEC 15417. */
const QUIET_BARS = 10;

/** Null where it cannot be written as bars: a tag may carry any letters. */
export function barsOf(text: string): BarsShape | null {
  if (!/^[ -~]+$/.test(text)) return null;
  const made: { encodings?: readonly { readonly data: string }[] } = {};
  JsBarcode(made, text, { format: 'CODE128', displayValue: false });
  const bits = (made.encodings ?? []).map(({ data }) => data).join('');
  const bars = [...bits.matchAll(/1+/g)].map(({ index, 0: run }) => ({
    x: index + QUIET_BARS,
    width: run.length,
  }));
  return { modules: bits.length + 2 * QUIET_BARS, bars };
}
