/** What is varied: how far a knee follows its wedge, how well it is read, and how steadily it is stood. */

export interface Case {
  readonly name: string;
  /** Share of the rigid leg's movement that knees make, in the mean. */
  readonly share: number;
  /** Standard deviation of one offset as it is read, mm. */
  readonly errorMm: number;
  /** Standing afresh puts the knee elsewhere, standard deviation in mm: all readings of one standing share it. */
  readonly swayMm: number;
}

const plain = { share: 0.75, errorMm: 5, swayMm: 0 };

export const CASES: readonly Case[] = [
  { name: 'as expected', ...plain },
  { name: 'error 2 mm', ...plain, errorMm: 2 },
  { name: 'error 8 mm', ...plain, errorMm: 8 },
  { name: 'knees that follow little', ...plain, share: 0.45 },
  { name: 'knees that follow whole', ...plain, share: 0.95 },
  { name: 'every standing another', ...plain, errorMm: 3, swayMm: 4 },
];
