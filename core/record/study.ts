/** A shop's repeatability study as it is kept: how it was laid out, by whom, and what was read, turn by turn. */
import type { SettingName } from './settings.ts';

/** What is read in a turn, and which setting of the shop is its standard deviation. */
export const STUDIED = {
  /** Medial and lateral gap of one leg in one boot, mm. */
  gap: { reads: ['medial', 'lateral'], setting: 'gapErrorMm' },
  /** Where the knee stands off the line, mm, lateral positive. */
  knee: { reads: ['offset'], setting: 'kneeErrorMm' },
} as const satisfies Record<string, { reads: readonly string[]; setting: SettingName }>;
export type StudyOf = keyof typeof STUDIED;

export const STUDY_BOUNDS = { subjects: { min: 2, max: 20 }, repeats: { min: 2, max: 6 } } as const;

/** Subjects are numbers alone, and technicians initials: nobody is named. */
export interface Study {
  readonly of: StudyOf;
  /** Of the order of the turns, 32 bits. */
  readonly seed: number;
  readonly technicians: readonly string[];
  readonly subjects: number;
  readonly repeats: number;
  readonly startedAt: string;
  /** mm, a row for each turn that was taken, in the order of the turns; what is read in one as `STUDIED` names it. */
  readonly readings: readonly (readonly number[])[];
}

/** How many turns the whole of it has. */
export const turnsOf = (study: Pick<Study, 'subjects' | 'technicians' | 'repeats'>): number =>
  study.subjects * study.technicians.length * study.repeats;
