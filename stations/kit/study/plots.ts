/** Where the marks of a study's plots lie, in pixels of their sheets. */
import type { Agreement, StudyResult } from '../../../core/index.ts';

export interface AgreementPlot {
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  /** Confidence intervals of the three lines. */
  readonly bands: readonly { readonly top: number; readonly bottom: number }[];
  readonly zero: number;
  readonly ticks: readonly { readonly mm: number; readonly y: number }[];
  readonly ends: { readonly low: number; readonly high: number };
}

const stepFor = (reach: number): number => [0.5, 1, 2, 5, 10, 20].find((step) => reach / step <= 4) ?? 50;

/** Difference over mean of each pair, with the lines of `agreement`, in a sheet of `width` by `height` right of `left`. */
export function agreementPlot(
  pairs: StudyResult['pairs'],
  { mean, lower, upper }: Agreement,
  width: number,
  height: number,
  left: number,
): AgreementPlot {
  const means = pairs.map(([a, b]) => (a + b) / 2);
  const differences = pairs.map(([a, b]) => a - b);
  const reach = Math.max(0.5, ...[...differences, lower.low, upper.high].map(Math.abs)) * 1.08;
  const [low, high] = [Math.min(...means), Math.max(...means)];
  const span = high - low || 1;
  const y = (mm: number): number => height / 2 - (mm / reach) * (height / 2);
  const x = (mm: number): number => left + 14 + ((mm - low) / span) * (width - left - 28);
  const step = stepFor(reach);
  const most = Math.floor(reach / step);
  return {
    points: pairs.map((_, i) => ({ x: x(means[i]!), y: y(differences[i]!) })),
    mean: y(mean.is),
    lower: y(lower.is),
    upper: y(upper.is),
    bands: [mean, lower, upper].map((each) => ({ top: y(each.high), bottom: y(each.low) })),
    zero: y(0),
    ticks: Array.from({ length: 2 * most + 1 }, (_, i) => (i - most) * step).map((mm) => ({ mm, y: y(mm) })),
    ends: { low, high },
  };
}

export type Source = 'subjects' | 'technicians' | 'interaction' | 'repeats';

/** What the readings vary by: the variance of each source in mm², and its share of all of it, 0 to 1. */
export function sourcesOf(
  result: StudyResult,
): readonly { readonly source: Source; readonly variance: number; readonly share: number }[] {
  const { variance, gauge } = result;
  const parts: readonly (readonly [Source, number])[] = [
    ['subjects', variance.part],
    ...(gauge
      ? ([
          ['technicians', gauge.variance.technician],
          ['interaction', gauge.variance.interaction],
        ] as const)
      : []),
    ['repeats', variance.repeatability],
  ];
  const total = parts.reduce((sum, [, each]) => sum + each, 0) || 1;
  return parts.map(([source, each]) => ({ source, variance: each, share: each / total }));
}
