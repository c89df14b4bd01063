/** Numbers by chance that come again the same: mulberry32 for the uniform, Box and Muller for the normal. */
export interface Random {
  /** 0 ≤ x < 1. */
  uniform(): number;
  between(low: number, high: number): number;
  normal(mean: number, sd: number): number;
}

export function randomFrom(start: number): Random {
  let state = start >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal: (mean, sd) =>
      mean + sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
