/** Time in which the doors are open: the working minutes between two moments, and the moment after so many of them. */

/** One time of open doors, ms since 1970; a list of them ascends and none overlap. */
export interface OpenSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

const MS = 60_000;

/** The place of the first span that ends after `ms`. */
function firstAfter(spans: readonly OpenSpan[], ms: number): number {
  let low = 0;
  for (let high = spans.length; low < high;) {
    const middle = (low + high) >> 1;
    if (spans[middle]!.toMs <= ms) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Minutes of open doors from one moment to a later one, ≥ 0; outside the spans nobody works. */
export function workingMinutes(spans: readonly OpenSpan[], fromMs: number, toMs: number): number {
  let sum = 0;
  for (let i = firstAfter(spans, fromMs); i < spans.length && spans[i]!.fromMs < toMs; i++)
    sum += Math.max(0, Math.min(toMs, spans[i]!.toMs) - Math.max(fromMs, spans[i]!.fromMs));
  return sum / MS;
}

/** When so many minutes of open doors are over, ms since 1970; null where the spans end before. */
export function momentAfter(spans: readonly OpenSpan[], fromMs: number, minutes: number): number | null {
  let left = minutes * MS;
  for (let i = firstAfter(spans, fromMs); i < spans.length; i++) {
    const begin = Math.max(fromMs, spans[i]!.fromMs);
    const room = spans[i]!.toMs - begin;
    if (left <= room) return begin + left;
    left -= room;
  }
  return null;
}
