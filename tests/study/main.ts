/**
 * `npm run study`: simulated skiers through the cuff loop and the stance loop, by unaided practices and by the tool's plan.
 * `--skiers N` for as many of each case (500), `--seed N` for the same again, `--json` for a program, `--write` for the page
 * and its plots in `docs`.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { CASES as CUFFS } from './cuff/cases.ts';
import { study as cuffStudy } from './cuff/summary.ts';
import { cuffColumns, plots, report, stanceColumns } from './report.ts';
import type { Studied } from './report.ts';
import { CASES as STANCES } from './stance/cases.ts';
import { study as stanceStudy } from './stance/summary.ts';

const number = (flag: string, standard: number): number => {
  const at = process.argv.indexOf(flag);
  return at < 0 ? standard : Number(process.argv[at + 1]);
};
const skiers = number('--skiers', 500);
const seed = number('--seed', 1);
const studied: Studied = {
  skiers,
  seed,
  cuff: CUFFS.flatMap((of) => cuffStudy(of, skiers, seed)),
  stance: STANCES.flatMap((of) => stanceStudy(of, skiers, seed)),
};

if (process.argv.includes('--json')) console.log(JSON.stringify(studied, null, 2));
else {
  console.log(`${skiers} skiers of each case, seed ${seed}`);
  console.table(studied.cuff.map(cuffColumns));
  console.table(studied.stance.map(stanceColumns));
}
if (process.argv.includes('--write')) {
  const docs = new URL('../../docs/', import.meta.url);
  mkdirSync(new URL('study/', docs), { recursive: true });
  for (const [name, svg] of Object.entries(plots(studied)))
    writeFileSync(new URL(`study/${name}`, docs), svg);
  writeFileSync(new URL('study.md', docs), report(studied));
}
