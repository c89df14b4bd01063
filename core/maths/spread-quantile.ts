/** Quantiles of the chi-square and Student distributions, from the incomplete gamma and beta functions. */

/** log Γ(x) for x > 0. Source: Lanczos' approximation with g = 7 and nine terms (P. Godfrey's coefficients). */
function logGamma(x: number): number {
  const terms = [
    676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
    -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  const t = x + 6.5;
  const sum = terms.reduce((total, c, i) => total + c / (x + i), 0.99999999999980993);
  return Math.log(Math.sqrt(2 * Math.PI) * sum) + (x - 0.5) * Math.log(t) - t;
}

const TINY = 1e-300;
const ENOUGH = 1e-15;
/** Terms of a series or a fraction; those of 10⁶ degrees of freedom need some thousand. */
const MOST_TERMS = 20_000;

/**
 * Lentz's evaluation of b0 + a1/(b1 + a2/(b2 + …)). `term` gives (a, b) of the i-th step, from 1.
 * Source: Thompson & Barnett, J Comput Phys 1986;64:490–509.
 */
function fraction(b0: number, term: (i: number) => readonly [a: number, b: number]): number {
  let value = b0 || TINY;
  let c = value;
  let d = 0;
  for (let i = 1; i <= MOST_TERMS; i++) {
    const [a, b] = term(i);
    d = 1 / (b + a * d || TINY);
    c = b + a / c || TINY;
    value *= c * d;
    if (Math.abs(c * d - 1) < ENOUGH) break;
  }
  return value;
}

/** Regularised lower incomplete gamma P(a, x), a > 0, x ≥ 0. Source: Abramowitz & Stegun 6.5.29 and 6.5.31. */
function gammaP(a: number, x: number): number {
  if (x <= 0) return 0;
  const scale = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n <= MOST_TERMS && term > sum * ENOUGH; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return scale * sum;
  }
  return 1 - scale / fraction(x + 1 - a, (i) => [-i * (i - a), x + 2 * i + 1 - a]);
}

/** Regularised incomplete beta I_x(a, b), a and b > 0. Source: Abramowitz & Stegun 26.5.8. */
function betaI(a: number, b: number, x: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaI(b, a, 1 - x);
  const scale = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
  const below = fraction(1, (i) => {
    const m = i >> 1;
    const over = i % 2 === 0 ? m * (b - m) : -(a + m) * (a + b + m);
    return [(over * x) / ((a + i - 1) * (a + i)), 1];
  });
  return scale / a / below;
}

/** Where an increasing function crosses `target`, between `low` and `high`. */
function crossing(increasing: (x: number) => number, target: number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 200 && to - from > 1e-13 * Math.max(1, Math.abs(to)); i++) {
    const middle = (from + to) / 2;
    if (increasing(middle) < target) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

/** The x under which a chi-square of `df` > 0 degrees of freedom falls with probability p, 0 < p < 1. 10 and 0.95: 18.307. */
export const chiSquareQuantile = (p: number, df: number): number =>
  crossing((x) => gammaP(df / 2, x / 2), p, 0, df + 40 * Math.sqrt(2 * df) + 100);

/** Student's t of `df` ≥ 1, 0 < p < 1. 16 and 0.975: 2.120. */
export function studentQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, df);
  // P(T > t) = I_x(df/2, 1/2)/2 with x = df/(df + t²), which grows as t falls.
  const x = crossing((at) => betaI(df / 2, 0.5, at) / 2, 1 - p, 0, 1);
  return Math.sqrt((df * (1 - x)) / x);
}
