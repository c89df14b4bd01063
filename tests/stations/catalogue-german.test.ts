/** Whatever is wrong with a table of models is said in German too. */
import { expect, it } from 'vitest';
import { readModelTable } from '../../core/index.ts';
import { germanOf } from '../../stations/kit/words/de/plan.ts';
import { BAD, HEADS, row } from '../helpers/model-rows.ts';

const TABLES: readonly (readonly (readonly string[])[])[] = [
  ...BAD.map(([, cells]) => [HEADS, row(cells)]),
  [HEADS, row(), row()],
  [HEADS, [...row(), 'more']],
  [[...HEADS, 'colour']],
  [[...HEADS, 'model']],
  [HEADS.slice(1)],
  [HEADS],
  [],
];

it('says each fault in German', () => {
  const said = TABLES.flatMap((rows) => {
    const read = readModelTable(rows);
    return read.ok ? [] : read.faults.map(({ wants }) => wants);
  });
  expect(said.length).toBeGreaterThanOrEqual(TABLES.length);
  expect(said.filter((wants) => germanOf(wants) === null)).toEqual([]);
});
