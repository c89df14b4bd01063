/** Files of pictures without what they tell of place, time and device. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bare } from '../../core/photo/bare.ts';
import { LIMIT } from '../../core/wire.ts';
import {
  animatedWebpFile,
  bareJpegFile,
  barePngFile,
  bareWebpFile,
  jpegFile,
  pngFile,
  SECRET,
  webpFile,
} from '../helpers/picture-files.ts';
import { check } from '../properties/check.ts';

const FILES = [
  ['image/jpeg', jpegFile, bareJpegFile, 64, 48],
  ['image/png', pngFile, barePngFile, 3, 2],
  ['image/webp', webpFile, bareWebpFile, 640, 480],
] as const;

describe.each(FILES)('[PHO-5] %s', (type, file, bareFile, widthPx, heightPx) => {
  it('keeps the picture and nothing else, and knows its size', () => {
    expect(Buffer.from(file).includes(SECRET)).toBe(true);
    const read = bare(file);
    if (!read.ok) throw new Error(read.why);
    expect(read.photo).toMatchObject({ type, widthPx, heightPx });
    expect(Buffer.from(read.photo.bytes).equals(Buffer.from(bareFile))).toBe(true);
  });

  it('that is bare already stays as it is, byte for byte', () => {
    const read = bare(bareFile);
    expect(read.ok && Buffer.from(read.photo.bytes).equals(Buffer.from(bareFile))).toBe(true);
  });

  it('cut short anywhere is refused', () => {
    for (let end = 0; end < bareFile.length; end++)
      expect([end, bare(bareFile.slice(0, end)).ok]).toEqual([end, false]);
  });

  it('with bytes changed anywhere is refused or bare, and bare again is the same', () => {
    const changes = fc.array(fc.tuple(fc.nat({ max: file.length - 1 }), fc.nat({ max: 255 })), {
      minLength: 1,
      maxLength: 6,
    });
    check(500, changes, (some) => {
      const bytes = Uint8Array.from(file);
      for (const [at, value] of some) bytes[at] = value;
      const read = bare(bytes);
      if (read.ok) expect(bare(read.photo.bytes)).toEqual(read);
      else expect(['unknown', 'broken', 'too-large']).toContain(read.why);
    });
  });
});

describe('[PHO-5] what is no photo', () => {
  it.each<[string, Uint8Array, string]>([
    ['nothing', new Uint8Array(), 'unknown'],
    ['a page', Buffer.from('<html><script>1</script>'), 'unknown'],
    ['a drawing', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'unknown'],
    ['a GIF', Buffer.from('GIF89a\x01\0\x01\0'), 'unknown'],
    ['an animation', animatedWebpFile, 'broken'],
  ])('%s is refused', (_, bytes, why) => expect(bare(bytes)).toEqual({ ok: false, why }));

  it('a picture of too many pixels is refused', () => {
    const large = Uint8Array.from(barePngFile);
    large.set([0, 0, 0x10, 0x01], 16);
    expect(LIMIT.photoSidePx).toBe(0x1000);
    expect(bare(large)).toEqual({ ok: false, why: 'too-large' });
    large.set([0, 0, 0, 0], 16);
    expect(bare(large)).toEqual({ ok: false, why: 'broken' });
  });
});
