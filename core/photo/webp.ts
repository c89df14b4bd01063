/**
 * A still WebP without EXIF, XMP and colour profile: its header, its transparency and its picture.
 *
 * Source: WebP Container Specification (RFC 9649), section 2; sizes of VP8 from RFC 6386, 9.1, of VP8L from RFC 9649, 3.
 */
import { bigEndian, fourLetters, joined, littleEndian, need } from './bytes.ts';
import type { BarePhoto } from './bytes.ts';

/** Flag of VP8X that says there is transparency: the only one that stays true of what is kept. */
const ALPHA = 0x10;

/** Throws `Broken`; for an animation too. */
export function bareWebp(bytes: Uint8Array): BarePhoto {
  const whole = 8 + littleEndian(bytes, 4, 4);
  need(whole <= bytes.length);
  const kept: Uint8Array[] = [];
  let size: readonly [number, number] | null = null;
  for (let at = 12; at < whole;) {
    const name = fourLetters(bytes, at);
    const length = littleEndian(bytes, at + 4, 4);
    const end = at + 8 + length + (length % 2);
    need(end <= whole && name !== 'ANIM' && name !== 'ANMF');
    const chunk = bytes.slice(at, end);
    if (name === 'VP8X') {
      need(length === 10);
      chunk.fill(0, 9, 12);
      chunk[8]! &= ALPHA;
    }
    if (name === 'VP8 ' || name === 'VP8L') {
      need(size === null);
      size = name === 'VP8 ' ? lossy(chunk) : lossless(chunk);
    }
    if (['VP8X', 'ALPH', 'VP8 ', 'VP8L'].includes(name)) kept.push(chunk);
    at = end;
  }
  need(size !== null);
  const body = joined([bytes.subarray(8, 12), ...kept]);
  const head = Uint8Array.from([...bytes.subarray(0, 4), ...[0, 8, 16, 24].map((n) => body.length >>> n)]);
  return { type: 'image/webp', bytes: joined([head, body]), widthPx: size[0], heightPx: size[1] };
}

/** Behind the frame tag of three bytes and the start code of three, 14 bits each; the upper two scale. */
function lossy(chunk: Uint8Array): readonly [number, number] {
  need(bigEndian(chunk, 11, 3) === 0x9d012a);
  return [littleEndian(chunk, 14, 2) & 0x3fff, littleEndian(chunk, 16, 2) & 0x3fff];
}

/** Behind the signature, 14 bits each of width and height less one. */
function lossless(chunk: Uint8Array): readonly [number, number] {
  need(chunk[8] === 0x2f);
  const bits = littleEndian(chunk, 9, 4);
  return [(bits & 0x3fff) + 1, (Math.floor(bits / 2 ** 14) & 0x3fff) + 1];
}
