/** Small picture files by hand, with all that cameras write into them and no photo should tell. */
import { deflateSync, crc32 } from 'node:zlib';

/** Where, when, by what and of whom: none of it may be left. */
export const SECRET = 'Hollow Lane 7, N 47.26 E 11.39, camera 00-1234';

const text = (value: string): number[] => [...Buffer.from(value, 'latin1')];
const be = (value: number, length: number): number[] =>
  Array.from({ length }, (_, i) => (value >>> (8 * (length - 1 - i))) & 0xff);
const le = (value: number, length: number): number[] => be(value, length).reverse();

const segment = (marker: number, data: readonly number[]): number[] => [
  ...[0xff, marker],
  ...be(data.length + 2, 2),
  ...data,
];
/** EXIF, XMP, IPTC, a maker's block and a comment. */
export const JPEG_NOTES: readonly (readonly number[])[] = [
  segment(0xe1, [...text('Exif\0\0MM\0*'), ...text(SECRET)]),
  segment(0xe1, text(`http://ns.adobe.com/xap/1.0/\0<x>${SECRET}</x>`)),
  segment(0xe2, text(`MPF\0${SECRET}`)),
  segment(0xed, text(`Photoshop 3.0\x008BIM${SECRET}`)),
  segment(0xef, text(SECRET)),
  segment(0xfe, text(SECRET)),
];

/** What a decoder needs: tables, a frame of 64 × 48, two scans with a restart and a stuffed byte. */
const JPEG_PICTURE = [
  segment(0xdb, [0, ...Array.from({ length: 64 }, () => 1)]),
  segment(0xc2, [8, ...be(48, 2), ...be(64, 2), 1, 1, 0x11, 0]),
  segment(0xc4, [0, ...Array.from({ length: 16 }, () => 0)]),
  [...segment(0xda, [1, 1, 0, 0, 63, 0]), 0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56],
  [...segment(0xda, [1, 1, 0, 0, 63, 0]), 0x78],
];
const SOI = [0xff, 0xd8];
const EOI = [0xff, 0xd9];

export const bareJpegFile = Uint8Array.from([...SOI, ...JPEG_PICTURE.flat(), ...EOI]);
/** Notes before, between and behind. */
export const jpegFile = Uint8Array.from([
  ...[...SOI, ...segment(0xe0, text('JFIF\0\x01\x01\0\0\x01\0\x01\0\0'))],
  ...JPEG_NOTES.flat(),
  ...JPEG_PICTURE.flatMap((part) => [...part, ...JPEG_NOTES[5]!]),
  ...[...EOI, ...text(SECRET)],
]);

const chunk = (name: string, data: readonly number[]): number[] => [
  ...be(data.length, 4),
  ...text(name),
  ...data,
  ...be(crc32(Buffer.from([...text(name), ...data])), 4),
];
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const IHDR = chunk('IHDR', [...be(3, 4), ...be(2, 4), 8, 0, 0, 0, 0]);
const IDAT = chunk('IDAT', [...deflateSync(Buffer.from([0, 9, 8, 7, 0, 6, 5, 4]))]);
export const barePngFile = Uint8Array.from([...PNG, ...IHDR, ...IDAT, ...chunk('IEND', [])]);
export const pngFile = Uint8Array.from([
  ...[...PNG, ...IHDR],
  ...['tEXt', 'iTXt', 'eXIf', 'iCCP'].flatMap((name) => chunk(name, text(`a\0${SECRET}`))),
  ...[...IDAT, ...chunk('tIME', text(SECRET)), ...chunk('IEND', []), ...text(SECRET)],
]);

const riff = (name: string, data: readonly number[]): number[] => [
  ...text(name),
  ...le(data.length, 4),
  ...data,
  ...(data.length % 2 ? [0] : []),
];
const VP8 = riff('VP8 ', [0, 0, 0, 0x9d, 0x01, 0x2a, ...le(640, 2), ...le(480, 2), 1]);
const webp = (...chunks: readonly (readonly number[])[]): Uint8Array =>
  Uint8Array.from(riff('RIFF', [...text('WEBP'), ...chunks.flat()]));
export const bareWebpFile = webp(riff('VP8X', [0x10, 0, 0, 0, ...le(639, 3), ...le(479, 3)]), VP8);
export const webpFile = Uint8Array.from([
  ...webp(
    riff('VP8X', [0x3c, 0, 0, 0, ...le(639, 3), ...le(479, 3)]),
    riff('ICCP', text(SECRET)),
    VP8,
    riff('EXIF', text(SECRET)),
    riff('XMP ', text(SECRET)),
  ),
  ...text(SECRET),
]);
export const animatedWebpFile = webp(riff('ANIM', [0, 0, 0, 0, 0, 0]), VP8);
