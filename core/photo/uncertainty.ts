/**
 * Standard uncertainty of a number that is worked out of others, by the first-order law of propagation:
 * `u² = Σ (∂f/∂xᵢ)²·u²(xᵢ)`, for inputs without correlation.
 *
 * Source: GUM, JCGM 100:2008, 5.1.2, equation (10); the slopes by central differences as in its 5.1.3, note 2 [both
 * numbers from memory].
 */

/** Wide enough that rounding is nothing, narrow enough that the curve is straight over it; in units of the input. */
const STEP = 0.01;

/**
 * @param f null where it has no value
 * @param sd the same for every input: each point is picked with the same care
 * @returns null where `f` has no value at the inputs or beside them
 */
export function propagated(
  f: (inputs: readonly number[]) => number | null,
  inputs: readonly number[],
  sd: number,
): number | null {
  let variance = 0;
  for (let i = 0; i < inputs.length; i++) {
    const [less, more] = [-STEP, STEP].map((step) => f(inputs.map((x, j) => (j === i ? x + step : x))));
    if (typeof less !== 'number' || typeof more !== 'number') return null;
    variance += (((more - less) / (2 * STEP)) * sd) ** 2;
  }
  return Math.sqrt(variance);
}
