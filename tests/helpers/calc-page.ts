/** The page of all calculations for docs/calc.md, made from the catalogue itself. */
import { catalogue } from '../../core/index.ts';
import type { Calculation } from '../../core/index.ts';
import { inputsOf, outputsOf } from '../../server/calc-fields.ts';
import type { Field } from '../../server/calc-fields.ts';
import { exampleCall } from '../../server/calc.ts';

/** A bar would end the cell. */
const cell = (text: string): string => text.replaceAll('|', '\\|');

const row = (which: string, { path, wants, means }: Field): string =>
  `| ${which} | ${path ? `\`${path}\`` : 'all'} | ${cell([wants, means].filter(Boolean).join('; '))} |`;

function section(name: string, calculation: Calculation): string {
  return [
    `### \`${name}\``,
    `${calculation.means}.`,
    `Formula: ${calculation.formula}.\\\nSource: ${calculation.source}.`,
    [
      '| | field | value |',
      '| --- | --- | --- |',
      ...inputsOf(calculation).map((field) => row('takes', field)),
      ...outputsOf(calculation).map((field) => row('gives', field)),
    ].join('\n'),
    ['```', exampleCall(name, calculation), JSON.stringify(calculation.example.output), '```'].join('\n'),
  ].join('\n\n');
}

export function calcPage(): string {
  const groups = Object.entries(catalogue()).map(([group, calculations]) =>
    [`## core/maths/${group}`, ...Object.entries(calculations).map(([name, one]) => section(name, one))].join(
      '\n\n',
    ),
  );
  return [
    '# Every calculation, by itself',
    "`npm run -s calc -- NAME '{json}'` asks one of them: JSON in, JSON out, exit 0; for what it cannot use, one line that names the field, exit 2.",
    'Made from the code by `npm run docs`. A `?` marks what may be left out, `[]` each entry of a list. Lengths are in millimetres, angles in degrees; signs as in [house.md](house.md). Answers are told here to three decimals.',
    ...groups,
    '',
  ].join('\n\n');
}
