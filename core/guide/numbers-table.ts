/** The shop's numbers as a table for other programs: one row for each piece of the period, the same in every language. */
import { SERVICES } from '../record/kinds.ts';
import { wilson } from '../maths/share.ts';
import { Z90 } from '../maths/quantile.ts';
import { evenOf, MANY_MOVES, STAGES } from './numbers.ts';
import type { Bucket, ByService, Halfway, NumbersTold, Stage } from './numbers.ts';

interface Column {
  readonly head: string;
  readonly of: (bucket: Bucket) => string | number | null | undefined;
}

/** At most so many decimals: a thousandth of a minute is noise. */
const places = (value: number | undefined, digits: number): number | undefined =>
  value === undefined ? undefined : Number(value.toFixed(digits));

const byService = (name: string, of: (bucket: Bucket) => ByService): Column[] =>
  SERVICES.map((service) => ({ head: `${name}_${service}`, of: (bucket) => of(bucket)[service] }));

const halfway = (name: string, of: (bucket: Bucket) => Halfway): Column[] => [
  { head: `${name}_median_min`, of: (bucket) => places(of(bucket)?.medianMin, 2) },
  { head: `${name}_80_percent_within_min`, of: (bucket) => places(of(bucket)?.mostMin, 2) },
];

const ofStage = (stage: Stage): Column[] => [
  { head: `${stage}_count`, of: ({ times }) => times[stage].n },
  ...halfway(`${stage}_waited_open`, ({ times }) => times[stage].waited),
  ...(stage === 'pickup' ? [] : halfway(`${stage}_worked_open`, ({ times }) => times[stage].worked)),
  ...halfway(`${stage}_by_the_clock`, ({ times }) => times[stage].whole),
];

const first = (bucket: Bucket) => wilson(bucket.firstEnough, bucket.moved, Z90);
const percent = (share: number | undefined) => places(share === undefined ? undefined : 100 * share, 2);

export const NUMBERS_COLUMNS: readonly Column[] = [
  { head: 'first_day', of: ({ from }) => from },
  { head: 'last_day', of: ({ to }) => to },
  { head: 'hour', of: ({ hour }) => hour },
  { head: 'begins_utc', of: ({ fromMs }) => new Date(fromMs).toISOString() },
  { head: 'ends_before_utc', of: ({ toMs }) => new Date(toMs).toISOString() },
  ...byService('jobs_taken_in', ({ opened }) => opened),
  ...byService('jobs_handed_over', ({ handed }) => handed),
  ...byService('jobs_released_unfit', ({ unfit }) => unfit),
  ...Array.from({ length: MANY_MOVES + 1 }, (_, moves) => ({
    head: `cuffs_even_after_${moves}${moves === MANY_MOVES ? '_or_more' : ''}_moves`,
    of: ({ evenAfter }: Bucket) => evenAfter[moves],
  })),
  { head: 'cuffs_even', of: evenOf },
  { head: 'moves_of_even_cuffs', of: ({ evenMoves }) => evenMoves },
  { head: 'cuffs_closed_otherwise', of: ({ otherwise }) => otherwise },
  { head: 'cuffs_moved', of: ({ moved }) => moved },
  { head: 'cuffs_even_after_first_move', of: ({ firstEnough }) => firstEnough },
  { head: 'first_move_enough_percent', of: (bucket) => percent(first(bucket)?.share) },
  { head: 'first_move_enough_90_interval_low_percent', of: (bucket) => percent(first(bucket)?.low) },
  { head: 'first_move_enough_90_interval_high_percent', of: (bucket) => percent(first(bucket)?.high) },
  ...STAGES.flatMap(ofStage),
];

/** Heads first; a cell is empty where there is nothing to say. */
export const numbersTable = ({ buckets }: Pick<NumbersTold, 'buckets'>): string[][] => [
  NUMBERS_COLUMNS.map(({ head }) => head),
  ...buckets.map((bucket) => NUMBERS_COLUMNS.map(({ of }) => String(of(bucket) ?? ''))),
];
