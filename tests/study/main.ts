/**
 * `npm run study`: simulated skiers through the cuff loop, by a mark or two toward the gap, by the last reading alone and by
 * the tool's plan. `--skiers N` for as many of each case (500), `--seed N` for the same again, `--json` for a program.
 */
import { CASES } from './cases.ts';
import { ASSUMED } from './skiers.ts';
import { OFF_MM, study } from './summary.ts';

const number = (flag: string, standard: number): number => {
  const at = process.argv.indexOf(flag);
  return at < 0 ? standard : Number(process.argv[at + 1]);
};
const SKIERS = number('--skiers', 500);
const SEED = number('--seed', 1);
const rows = CASES.flatMap((of) => study(of, SKIERS, SEED));

if (process.argv.includes('--json'))
  console.log(JSON.stringify({ seed: SEED, skiers: SKIERS, assumed: ASSUMED, rows }, null, 2));
else {
  const shown = (value: number | null, digits: number) => (value === null ? '–' : value.toFixed(digits));
  const percent = (value: number | null) => (value === null ? '–' : `${(100 * value).toFixed(1)} %`);
  console.log(`${SKIERS} skiers of each case, seed ${SEED}. Assumed: ${JSON.stringify(ASSUMED)}`);
  console.table(
    rows.map((row) => ({
      case: row.case,
      practice: row.practice,
      closed: percent(row.closed),
      'rounds where any': shown(row.rounds, 2),
      readings: shown(row.readings, 2),
      [`closed, off > ${OFF_MM} mm`]: percent(row.closedTrulyOff),
      '90 % interval held': percent(row.heldByInterval),
    })),
  );
}
