/** A share that was seen, and where the true one lies. */

/** 0 ≤ `low` ≤ `share` ≤ `high` ≤ 1. */
export interface Share {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The share of `count` among `of`, with Wilson's interval: honest for few and near 0 and 1, where the common one
 * `p ± z·√(p(1 − p)/n)` is empty or leaves the range.
 * Source: E. B. Wilson, J Am Stat Assoc 1927;22:209–212.
 *
 * @param count 0 to `of`
 * @param z deviations on either side: 1.645 holds nine tenths
 * @returns null where there are none
 */
export function wilson(count: number, of: number, z: number): Share | null {
  if (of <= 0) return null;
  const share = count / of;
  const squared = (z * z) / of;
  const middle = (share + squared / 2) / (1 + squared);
  const half = (z * Math.sqrt((share * (1 - share) + squared / 4) / of)) / (1 + squared);
  // Rounding must leave no share of its own interval.
  return {
    share,
    low: count === 0 ? 0 : Math.max(0, middle - half),
    high: count === of ? 1 : Math.min(1, middle + half),
  };
}

/**
 * The value under which a share `p` of these lies, between two of them in proportion: MEDIAN and PERCENTILE of a spreadsheet.
 * Source: Hyndman and Fan, Am Stat 1996;50:361–365, definition 7.
 *
 * @param ascending at least one
 */
export function sampleQuantile(ascending: ArrayLike<number>, p: number): number {
  const place = (ascending.length - 1) * Math.min(1, Math.max(0, p));
  const below = Math.floor(place);
  const low = ascending[below]!;
  return low + (place - below) * ((ascending[below + 1] ?? low) - low);
}
