/**
 * A PNG without texts, times, EXIF and colour profiles: the chunks that make the picture, and nothing behind its end.
 *
 * Source: W3C Portable Network Graphics, sections 5 (chunks) and 11.2 (IHDR).
 */
import { bigEndian, fourLetters, joined, need } from './bytes.ts';
import type { BarePhoto } from './bytes.ts';

const KEPT = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']);
/** Length, name and checksum around a chunk's data. */
const AROUND = 12;

/** Throws `Broken`. */
export function barePng(bytes: Uint8Array): BarePhoto {
  const kept: Uint8Array[] = [bytes.subarray(0, 8)];
  const names: string[] = [];
  let at = 8;
  while (names.at(-1) !== 'IEND') {
    const end = at + AROUND + bigEndian(bytes, at, 4);
    need(end <= bytes.length);
    const name = fourLetters(bytes, at + 4);
    need((names.length === 0) === (name === 'IHDR'));
    if (KEPT.has(name)) {
      kept.push(bytes.subarray(at, end));
      names.push(name);
    }
    at = end;
  }
  need(names.includes('IDAT') && bigEndian(kept[1]!, 0, 4) === 13 && kept.at(-1)!.length === AROUND);
  return {
    type: 'image/png',
    bytes: joined(kept),
    widthPx: bigEndian(kept[1]!, 8, 4),
    heightPx: bigEndian(kept[1]!, 12, 4),
  };
}
