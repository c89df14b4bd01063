/**
 * A crossed gauge study: every technician reads every part (a boot on a dummy leg, say) the same number of times. A
 * two-way analysis of variance with random effects parts what the readings vary by: the parts, the technicians,
 * how a technician takes a part, and reading the same thing again.
 *
 * Source: Montgomery, Design and Analysis of Experiments, two-factor random model; names and the 1.41 of ndc as in
 * the AIAG's Measurement Systems Analysis, 4th ed. [secondary]. Interaction is never pooled into the error.
 */
import { meanOf, quotient, sdInterval, squaresAbout } from './repeatability.ts';
import type { Spread } from './repeatability.ts';

/** One line of the analysis: sum of squares, degrees of freedom, mean square, and F; null where that divides by 0. */
export interface Source {
  readonly ss: number;
  readonly df: number;
  readonly ms: number;
  readonly f: number | null;
}

/** Variance components. An estimate below 0 is 0, as usual. */
export interface Components {
  readonly part: number;
  readonly technician: number;
  readonly interaction: number;
  /** Reading the same thing again. */
  readonly repeatability: number;
  /** technician + interaction. */
  readonly reproducibility: number;
  /** All of the reading: repeatability + reproducibility. */
  readonly gauge: number;
  readonly total: number;
}

export interface GaugeStudy {
  readonly mean: number;
  readonly part: Source;
  readonly technician: Source;
  readonly interaction: Source;
  readonly error: Source;
  readonly variance: Components;
  /** %GRR: standard deviation of the reading in percent of the total one; null when nothing varies. */
  readonly studyPercent: number | null;
  /** Share of the total variance that is reading error, 0 to 1; null when nothing varies. */
  readonly readingShare: number | null;
  /** Number of classes the readings can tell apart, 1.41·SD_part/SD_gauge, not rounded; null without reading error. */
  readonly distinct: number | null;
  /** One reading by any technician, with Satterthwaite's degrees of freedom: what a shop's σ is made of. */
  readonly reading: Spread;
}

/** Parts × technicians × repeats. */
export type GaugeTable = readonly (readonly (readonly number[])[])[];

/** Parts, technicians and repeats, when there are two of each and no gap in the table. */
function sizeOf(table: GaugeTable): readonly [p: number, o: number, r: number] | null {
  const [p, o, r] = [table.length, table[0]?.length ?? 0, table[0]?.[0]?.length ?? 0];
  const full = table.every((part) => part.length === o && part.every((cell) => cell.length === r));
  return full && p >= 2 && o >= 2 && r >= 2 ? [p, o, r] : null;
}

const source = (ss: number, df: number, under: number): Source => {
  const ms = Math.max(0, ss) / df;
  return { ss: Math.max(0, ss), df, ms, f: quotient(ms, under) };
};

/** Null for a table with gaps, or with fewer than two parts, technicians or repeats. */
export function gaugeStudy(table: GaugeTable): GaugeStudy | null {
  const size = sizeOf(table);
  if (!size) return null;
  const [p, o, r] = size;
  const all = table.flat(2);
  const partMeans = table.map((part) => meanOf(part.flat()));
  const technicianMeans = table[0]!.map((_, j) => meanOf(table.flatMap((part) => part[j]!)));
  const ssPart = o * r * squaresAbout(partMeans);
  const ssTechnician = p * r * squaresAbout(technicianMeans);
  const ssCells = r * squaresAbout(table.flatMap((part) => part.map(meanOf)));
  const ssError = table.flat().reduce((sum, cell) => sum + squaresAbout(cell), 0);

  const error = source(ssError, p * o * (r - 1), 0);
  // What rounding leaves of a difference of sums is no interaction.
  const rest = ssCells - ssPart - ssTechnician;
  const interaction = source(rest > ssCells * 1e-12 ? rest : 0, (p - 1) * (o - 1), error.ms);
  const part = source(ssPart, p - 1, interaction.ms);
  const technician = source(ssTechnician, o - 1, interaction.ms);

  const variance = components([p, o, r], { part, technician, interaction, error });
  const share = quotient(variance.gauge, variance.total);
  const signal = quotient(variance.part, variance.gauge);
  return {
    mean: meanOf(all),
    part,
    technician,
    interaction,
    error,
    variance,
    studyPercent: share === null ? null : 100 * Math.sqrt(share),
    readingShare: share,
    distinct: signal === null ? null : 1.41 * Math.sqrt(signal),
    reading: {
      sd: Math.sqrt(variance.gauge),
      df: satterthwaite([
        { part: technician.ms / (p * r), df: technician.df },
        { part: (interaction.ms * (p - 1)) / (p * r), df: interaction.df },
        { part: (error.ms * (r - 1)) / r, df: error.df },
      ]),
    },
  };
}

type Sources = Readonly<Record<'part' | 'technician' | 'interaction' | 'error', Source>>;

function components([p, o, r]: readonly [p: number, o: number, r: number], of: Sources): Components {
  const positive = (value: number): number => Math.max(0, value);
  const repeatability = of.error.ms;
  const interaction = positive((of.interaction.ms - of.error.ms) / r);
  const technician = positive((of.technician.ms - of.interaction.ms) / (p * r));
  const part = positive((of.part.ms - of.interaction.ms) / (o * r));
  const reproducibility = technician + interaction;
  const gauge = repeatability + reproducibility;
  return {
    part,
    technician,
    interaction,
    repeatability,
    reproducibility,
    gauge,
    total: gauge + part,
  };
}

/**
 * Degrees of freedom of a sum of mean squares, `(Σ part)² / Σ(part²/df)`: an approximation, and of the sum before
 * any component below 0 was set to 0. Between the least and the sum of the single ones.
 * Source: Satterthwaite, Biometrics Bull 1946;2:110–114.
 */
function satterthwaite(terms: readonly { readonly part: number; readonly df: number }[]): number {
  const sum = terms.reduce((total, term) => total + term.part, 0);
  const all = terms.reduce((total, term) => total + term.df, 0);
  return sum > 0 ? sum ** 2 / terms.reduce((total, { part, df }) => total + part ** 2 / df, 0) : all;
}

/** P/T: six standard deviations of the reading in a tolerance, > 0. */
export const toleranceShare = (study: GaugeStudy, tolerance: number): number =>
  (6 * study.reading.sd) / tolerance;

/** A shop's σ of one reading by any of its technicians, and between which values it may truly lie. */
export function shopError(
  study: GaugeStudy,
  level = 0.95,
): Spread & { readonly low: number; readonly high: number } {
  return { ...study.reading, ...sdInterval(study.reading, level) };
}
