/**
 * A repeatability study of one shop: in which order its subjects are read, and what the readings say. Each turn reads
 * one subject once, as anew, without sight of what was read before.
 */
import { gaugeStudy, shopError } from './gauge.ts';
import type { GaugeStudy } from './gauge.ts';
import { randomStream } from './random.ts';
import {
  agreement,
  icc,
  meanOf,
  repeatabilityCoefficient,
  sdInterval,
  withinSubject,
} from './repeatability.ts';
import type { Agreement, Spread } from './repeatability.ts';

export interface StudySize {
  readonly subjects: number;
  readonly technicians: number;
  /** How often each technician reads each subject. */
  readonly repeats: number;
}

/** All count from 0. */
export interface StudyTurn {
  readonly subject: number;
  readonly technician: number;
  readonly repeat: number;
}

/** 0 to n − 1, shuffled. Source: Fisher & Yates' shuffle in Durstenfeld's form. */
function shuffled(n: number, random: () => number): number[] {
  const all = Array.from({ length: n }, (_, i) => i);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [all[i], all[j]] = [all[j]!, all[i]!];
  }
  return all;
}

/**
 * The turns of a study, the same for the same seed (32 bits). Round by round, a repeat each: in a round the technicians
 * come in an order by chance, each takes every subject once in an order by chance, and nobody reads a subject that was
 * read just before. Parts in random order, one operator after the other, again for each trial: as the AIAG's
 * Measurement Systems Analysis, 4th ed. [secondary], lays a study out.
 */
export function studyOrder({ subjects, technicians, repeats }: StudySize, seed: number): StudyTurn[] {
  const random = randomStream(seed, 0x57d1);
  const turns: StudyTurn[] = [];
  for (let repeat = 0; repeat < repeats; repeat++)
    for (const technician of shuffled(technicians, random)) {
      const order = shuffled(subjects, random);
      if (subjects > 1 && order[0] === turns.at(-1)?.subject) order.push(order.shift()!);
      turns.push(...order.map((subject) => ({ subject, technician, repeat })));
    }
  return turns;
}

/** Readings of one thing each: things × technicians × repeats. */
export type StudyCells = readonly (readonly (readonly number[])[])[];

/** A standard deviation, and between which it may truly be at 95 %. */
export type Sure = Spread & { readonly low: number; readonly high: number };

export interface StudyResult {
  /** Of one technician's repeats: s_w. */
  readonly within: Sure;
  /** Two readings of one technician differ by less than this in 95 % of cases: 2.77·s_w. */
  readonly repeatability: number;
  /** One reading by any of these technicians: what a shop's σ is. With one technician it is `within`. */
  readonly reading: Sure;
  /**
   * Intraclass correlation of single readings, for absolute agreement: by the shares of variance with two technicians,
   * ICC(1,1) with one. Null where nothing varies.
   */
  readonly icc: number | null;
  /** The first readings of the two technicians, or the first two of the one. */
  readonly pairs: readonly (readonly [first: number, second: number])[];
  readonly agreement: Agreement | null;
  /** Variance by where it comes from, with at least two technicians. */
  readonly gauge: GaugeStudy | null;
  /** Variance between the things and of reading one again, with one technician. */
  readonly variance: { readonly part: number; readonly repeatability: number };
}

const sure = (spread: Spread): Sure => ({ ...spread, ...sdInterval(spread) });
const share = ({ sd, df }: Spread, by: number): Spread => ({ sd, df: Math.max(1, df / by) });

/**
 * Null with a gap in the table, or with fewer than two things or two repeats. `together`: how many readings come from
 * one look and do not err each by itself, as the two gaps of one stand; degrees of freedom count one look once, so that
 * no interval is narrower than it should be.
 */
export function studyResult(cells: StudyCells, together = 1): StudyResult | null {
  const [o, r] = [cells[0]?.length ?? 0, cells[0]?.[0]?.length ?? 0];
  const full = cells.every((each) => each.length === o && each.every((cell) => cell.length === r));
  if (!full || cells.length < 2 || o < 1 || r < 2) return null;
  const spread = withinSubject(cells.flat())!;
  const within = sure(share(spread, together));
  const gauge = gaugeStudy(cells);
  const pairs = cells.map((each) =>
    o > 1 ? ([each[0]![0]!, each[1]![0]!] as const) : ([each[0]![0]!, each[0]![1]!] as const),
  );
  const means = cells.map((each) => meanOf(each.flat()));
  const between = means.reduce((sum, mean) => sum + (mean - meanOf(means)) ** 2, 0) / (means.length - 1);
  return {
    within,
    repeatability: repeatabilityCoefficient(within.sd),
    reading: gauge ? sure(share(shopError(gauge), together)) : within,
    icc: gauge
      ? gauge.readingShare === null
        ? null
        : 1 - gauge.readingShare
      : (icc(cells.map((each) => each[0]!))?.oneWay ?? null),
    pairs,
    agreement: agreement(pairs),
    gauge,
    variance: gauge
      ? { part: gauge.variance.part, repeatability: gauge.variance.repeatability }
      : { part: Math.max(0, between - within.sd ** 2 / r), repeatability: within.sd ** 2 },
  };
}
