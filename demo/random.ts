/** Chance that can be had again: the same seed gives the same shop day. */

export interface Random {
  /** From 0 to under 1, evenly. */
  next(): number;
  /** From `min` to `max`, evenly. */
  between(min: number, max: number): number;
  /** Normal, with mean 0 and this standard deviation. */
  normal(sd: number): number;
  pick<T>(from: readonly T[]): T;
}

/** The generator mulberry32 (public domain): 32 bits of state, enough for a few hundred draws. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    next,
    between: (min, max) => min + (max - min) * next(),
    // Box and Muller; 1 − u, since the logarithm of 0 has no value.
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (from) => from[Math.floor(next() * from.length)]!,
  };
}
