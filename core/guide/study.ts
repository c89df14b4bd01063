/** What follows from a shop's repeatability study: whose turn it is, its result, its table. */
import { studyOrder, studyResult } from '../maths/study.ts';
import type { StudyResult, StudyTurn } from '../maths/study.ts';
import { STUDIED, turnsOf } from '../record/study.ts';
import type { Study } from '../record/study.ts';

export const turnsIn = (study: Study): StudyTurn[] =>
  studyOrder({ ...study, technicians: study.technicians.length }, study.seed);

export const isFinished = (study: Study): boolean => study.readings.length >= turnsOf(study);

/** Null until every turn was taken. */
export function resultOf(study: Study): StudyResult | null {
  if (!isFinished(study)) return null;
  const { reads } = STUDIED[study.of];
  const cells = Array.from({ length: study.subjects * reads.length }, () =>
    study.technicians.map(() => [] as number[]),
  );
  for (const [i, { subject, technician }] of turnsIn(study).entries())
    for (const [j] of reads.entries())
      cells[subject * reads.length + j]![technician]!.push(study.readings[i]![j]!);
  return studyResult(cells, reads.length);
}

/** As a table of texts, the heads first: a row for each turn that was taken, in the order it was taken. */
export function studyTable(study: Study): string[][] {
  const { reads } = STUDIED[study.of];
  const turns = turnsIn(study);
  return [
    ['turn', 'technician', 'subject', 'repeat', ...reads.map((each) => `${each} mm`)],
    ...study.readings.map((row, i) => {
      const { subject, technician, repeat } = turns[i]!;
      return [
        String(i + 1),
        study.technicians[technician]!,
        String(subject + 1),
        String(repeat + 1),
        ...row.map(String),
      ];
    }),
  ];
}

/** The setting's value that a finished study gives: to a hundredth of a millimetre. */
export const sigmaOf = (result: StudyResult): number => Math.round(result.reading.sd * 100) / 100;
