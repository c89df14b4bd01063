/** Places in the plots of the shop's numbers: pieces beside each other, counts and shares upward, minutes to the right. */
import { allServices, dayOf, periodOf, sumOf, wilson, Z90 } from '../../../core/index.ts';
import type { Bucket, BucketOf, NumbersTold, Share } from '../../../core/index.ts';

export interface Field {
  readonly width: number;
  readonly height: number;
  readonly left: number;
}

/** Whole steps, at most six of them. */
export function countTicks(most: number): number[] {
  const step =
    [1, 2, 5, 10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000].find((each) => most / each <= 5) ??
    Math.ceil(most / 5);
  return Array.from({ length: Math.max(1, Math.ceil(most / step)) + 1 }, (_, i) => i * step);
}

/** Pieces of a day in which nothing happens at night are not drawn; those between others are. */
export function drawn({ buckets, by }: Pick<NumbersTold, 'buckets' | 'by'>): readonly Bucket[] {
  if (by !== 'hour') return buckets;
  const busy = ({ opened, handed, unfit, moved, evenAfter, hour }: Bucket) =>
    (hour! >= 8 && hour! < 19) ||
    [opened, handed, unfit].some((by) => allServices(by) > 0) ||
    moved > 0 ||
    evenAfter.some((n) => n > 0);
  return buckets.slice(buckets.findIndex(busy), buckets.findLastIndex(busy) + 1);
}

/** Shares of one day's cuffs are chance: days are taken together by their weeks, hours as their day. */
export function forShares({ buckets, by }: Pick<NumbersTold, 'buckets' | 'by'>): {
  readonly by: BucketOf;
  readonly buckets: readonly Bucket[];
} {
  if (by !== 'day' && by !== 'hour') return { by, buckets };
  const weeks = new Map<number, Bucket[]>();
  for (const bucket of buckets) {
    const { from } = periodOf('week', dayOf(bucket.from)!);
    weeks.set(from, [...(weeks.get(from) ?? []), bucket]);
  }
  return {
    by: 'week',
    buckets: [...weeks.values()].map((days) => ({
      ...days[0]!,
      ...sumOf(days),
      hour: null,
      to: days.at(-1)!.to,
      toMs: days.at(-1)!.toMs,
    })),
  };
}

/** The middle of the piece at `i`. */
const middle = (i: number, count: number, { width, left }: Field): number =>
  left + ((i + 0.5) / count) * (width - left);

/** Every so many pieces have their name under the axis. */
export const everyOf = (count: number, { width, left }: Field, textPx: number): number =>
  Math.max(1, Math.ceil((count * textPx) / Math.max(1, width - left)));

export interface JobBar {
  readonly bucket: Bucket;
  readonly x: number;
  /** Upper ends; the foot of what was released unfit is the top of what was handed over. */
  readonly opened: number;
  readonly handed: number;
  readonly unfit: number;
}

export function jobsPlot(buckets: readonly Bucket[], field: Field) {
  const counts = buckets.map(({ opened, handed, unfit }) => ({
    opened: allServices(opened),
    handed: allServices(handed),
    left: allServices(handed) + allServices(unfit),
  }));
  const ticks = countTicks(Math.max(1, ...counts.flatMap(({ opened, left }) => [opened, left])));
  const top = ticks.at(-1)!;
  const y = (n: number): number => field.height * (1 - n / top);
  return {
    ticks: ticks.map((n) => ({ n, y: y(n) })),
    /** Half of what one piece has, px: each of two bars. */
    bar: Math.max(1.5, Math.min(28, ((field.width - field.left) / buckets.length) * 0.38)),
    bars: buckets.map((bucket, i): JobBar => ({
      bucket,
      x: middle(i, buckets.length, field),
      opened: y(counts[i]!.opened),
      handed: y(counts[i]!.handed),
      unfit: y(counts[i]!.left),
    })),
  };
}

export interface SharePoint {
  readonly bucket: Bucket;
  readonly share: Share;
  readonly x: number;
  readonly y: number;
  readonly top: number;
  readonly bottom: number;
}

/** Shares upward, 0 to 1; pieces in which nothing was moved have none. */
export function sharesPlot(buckets: readonly Bucket[], field: Field): SharePoint[] {
  const y = (share: number): number => field.height * (1 - share);
  return buckets.flatMap((bucket, i) => {
    const share = wilson(bucket.firstEnough, bucket.moved, Z90);
    if (!share) return [];
    return [
      {
        bucket,
        share,
        x: middle(i, buckets.length, field),
        y: y(share.share),
        top: y(share.high),
        bottom: y(share.low),
      },
    ];
  });
}

/** Where the pieces that are to come begin, px; null where none are. */
export function comingFrom(buckets: readonly Bucket[], atMs: number, { width, left }: Field): number | null {
  const first = buckets.findIndex(({ fromMs }) => fromMs > atMs);
  return first < 0 ? null : left + (first / buckets.length) * (width - left);
}

/** Where a piece's name stands under the axis: in its middle, but never past the picture's edge. */
export const nameAt = (
  x: number,
  width: number,
): { readonly x: number; readonly anchor: 'middle' | 'end' } =>
  x + 38 > width ? { x: width, anchor: 'end' } : { x, anchor: 'middle' };
