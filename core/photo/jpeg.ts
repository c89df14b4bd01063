/**
 * A JPEG without what cameras write into it: EXIF with place and device, XMP, IPTC, comments, small copies of the
 * picture, and whatever stands behind its end.
 *
 * Source: ITU-T T.81 (ISO/IEC 10918-1), annex B: the markers and their segments.
 */
import { bigEndian, joined, need } from './bytes.ts';
import type { BarePhoto } from './bytes.ts';

const SOS = 0xda;
const EOI = 0xd9;
const ADOBE = [0x41, 0x64, 0x6f, 0x62, 0x65];

/** Frame headers, SOF0 to SOF15 without DHT, JPG and DAC, which lie among their numbers. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** DHT, DAC, DQT, DNL, DRI: tables the picture cannot be decoded without. */
const isTable = (marker: number): boolean => [0xc4, 0xcc, 0xdb, 0xdc, 0xdd].includes(marker);
/** TEM and RST0 to RST7 stand alone, without a length. */
const standsAlone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);

/** Throws `Broken`. */
export function bareJpeg(bytes: Uint8Array): BarePhoto {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let size: readonly [number, number] | null = null;
  let scans = 0;
  let at = 2;
  for (;;) {
    need(bytes[at] === 0xff);
    while (bytes[at + 1] === 0xff) at++; // fill bytes
    const marker = bytes[at + 1];
    need(marker !== undefined && marker !== 0x00);
    if (marker === EOI) break;
    if (standsAlone(marker)) {
      at += 2;
      continue;
    }
    const end = at + 2 + bigEndian(bytes, at + 2, 2);
    need(end >= at + 4 && end <= bytes.length);
    const segment = bytes.subarray(at, end);
    if (isFrame(marker)) {
      need(size === null);
      size = [bigEndian(segment, 7, 2), bigEndian(segment, 5, 2)];
    }
    if (marker === SOS) {
      need(size !== null);
      scans++;
      const after = endOfScan(bytes, end);
      kept.push(segment, bytes.subarray(end, after));
      at = after;
      continue;
    }
    if (isFrame(marker) || isTable(marker) || isAdobe(marker, segment)) kept.push(segment);
    at = end;
  }
  need(size !== null && scans > 0);
  kept.push(Uint8Array.of(0xff, EOI));
  return { type: 'image/jpeg', bytes: joined(kept), widthPx: size[0], heightPx: size[1] };
}

/** APP14 with its fixed twelve bytes says how colours are to be read: without it some pictures turn green. */
const isAdobe = (marker: number, segment: Uint8Array): boolean =>
  marker === 0xee && segment.length === 16 && ADOBE.every((letter, i) => segment[4 + i] === letter);

/** Where the next marker stands that is no restart and no stuffed byte. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at++) {
    if (bytes[at] !== 0xff) continue;
    const next = bytes[at + 1]!;
    if (next !== 0x00 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  need(false);
}
