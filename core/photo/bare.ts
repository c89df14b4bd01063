/**
 * A picture's file without anything that says where, when and by what it was taken. Known by its bytes, whatever it
 * calls itself. The same on a station, before the file has its name, and on the server, which trusts none.
 *
 * Nothing is decoded, so the rows stay as they lie: whoever hands in a picture that its file's notes would turn draws
 * it upright first.
 */
import { LIMIT } from '../wire.ts';
import { Broken } from './bytes.ts';
import type { BarePhoto } from './bytes.ts';
import { bareJpeg } from './jpeg.ts';
import { barePng } from './png.ts';
import { bareWebp } from './webp.ts';

export type BareResult =
  | { readonly ok: true; readonly photo: BarePhoto }
  /** `unknown`: no JPEG, PNG or still WebP. `broken`: one that cannot be whole. `too-large`: too many pixels. */
  | { readonly ok: false; readonly why: 'unknown' | 'broken' | 'too-large' };

const starts = (bytes: Uint8Array, at: number, with_: readonly number[]): boolean =>
  with_.every((byte, i) => bytes[at + i] === byte);

const readerOf = (bytes: Uint8Array): ((bytes: Uint8Array) => BarePhoto) | null => {
  if (starts(bytes, 0, [0xff, 0xd8, 0xff])) return bareJpeg;
  if (starts(bytes, 0, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return barePng;
  if (starts(bytes, 0, [0x52, 0x49, 0x46, 0x46]) && starts(bytes, 8, [0x57, 0x45, 0x42, 0x50]))
    return bareWebp;
  return null;
};

/** Never throws. What is bare already comes back with the same bytes. */
export function bare(bytes: Uint8Array): BareResult {
  const read = readerOf(bytes);
  if (!read) return { ok: false, why: 'unknown' };
  try {
    const photo = read(bytes);
    const side = Math.max(photo.widthPx, photo.heightPx);
    if (Math.min(photo.widthPx, photo.heightPx) < 1) return { ok: false, why: 'broken' };
    return side > LIMIT.photoSidePx ? { ok: false, why: 'too-large' } : { ok: true, photo };
  } catch (error) {
    if (error instanceof Broken) return { ok: false, why: 'broken' };
    throw error;
  }
}
