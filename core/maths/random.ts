/**
 * Numbers that look random and are not: the same seed gives the same ones for ever, on every machine. The seed is
 * the caller's.
 *
 * Source: xoshiro128** 1.1 (Blackman & Vigna, ACM Trans Math Softw 2021;47:36, public domain); its state is filled
 * by a Weyl sequence through MurmurHash3's 32-bit finaliser (A. Appleby, public domain).
 */

/** MurmurHash3's finaliser: every bit of the input changes half the bits of the output. */
function mix(value: number): number {
  let h = value | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** A text as a number of 32 bits. Source: FNV-1a (Fowler, Noll & Vo). */
export function hashText(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

const rotate = (x: number, by: number): number => (x << by) | (x >>> (32 - by));

/**
 * Uniform numbers, over 0 and under 1, from whole numbers of which each set gives a stream of its own: a seed, and
 * what the stream is for. Only the lower 32 bits of each count.
 */
export function randomStream(...seeds: readonly number[]): () => number {
  let key = seeds.reduce((h, seed) => mix(Math.imul(h, 31) + (seed | 0) + 0x9e3779b9), 0);
  const fill = (): number => mix((key = (key + 0x9e3779b9) | 0));
  // The state must not be all zeros.
  let [a, b, c, d] = [fill(), fill(), fill(), fill() | 1];
  return () => {
    const next = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotate(d, 11);
    return (next + 0.5) / 2 ** 32;
  };
}
