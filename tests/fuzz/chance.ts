/** Chance for frames: fast, and the same again for the same seed. */
import { randomFrom } from '../../demo/random.ts';

export interface Chance {
  /** A whole number from 0 up to, not including, `below`. */
  under(below: number): number;
  pick<T>(from: readonly T[]): T;
  /** True once in `times`, on average. */
  once(times: number): boolean;
  bytes(length: number): Uint8Array;
}

export function chanceFrom(seed: number): Chance {
  const random = randomFrom(seed);
  const under = (below: number) => Math.floor(random.next() * below);
  return {
    under,
    pick: (from) => from[under(from.length)]!,
    once: (times) => under(times) === 0,
    bytes: (length) => Uint8Array.from({ length }, () => under(256)),
  };
}
