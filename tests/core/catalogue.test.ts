/** The shop's catalogue of boots, as a table: what fits comes back as it was, and what does not is said by row and column. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modelTable, readBoot, readModelTable } from '../../core/index.ts';
import type { CatalogueBoot, CellFault } from '../../core/index.ts';
import { BAD, HEADS, row } from '../helpers/model-rows.ts';

const faultsOf = (rows: readonly (readonly string[])[]): readonly CellFault[] => {
  const read = readModelTable(rows);
  if (read.ok) throw new Error(`no fault was found in ${JSON.stringify(rows)}`);
  return read.faults;
};

describe('a table of models', () => {
  it('[CAT-1] gives the models, with comma or point', () => {
    const read = readModelTable([HEADS, row(), row({ model: 'Nadel 90', 'factory lean deg': '−0.5' })]);
    expect(read).toMatchObject({
      ok: true,
      boots: [
        {
          model: 'Tarn 100',
          hardware: {
            pivots: 'dual',
            factoryLeanDeg: 1.5,
            travel: { lateral: { upMm: 5, downMm: 5 }, medial: { upMm: 4.5, downMm: 4.5 } },
          },
          soleReplaceable: false,
        },
        { model: 'Nadel 90', hardware: { factoryLeanDeg: -0.5 } },
      ],
    });
  });

  it('[CAT-1] takes its columns in any order, empty rows and empty columns at the end aside', () => {
    const turned = (cells: readonly string[]) => [...cells.toReversed(), '', ''];
    expect(readModelTable([turned(HEADS), turned(row()), ['', ' ']])).toEqual(readModelTable([HEADS, row()]));
  });

  it.each(BAD)('[CAT-2] with %s is refused by row and column', (_about, cells, column, says) => {
    const faults = faultsOf([HEADS, row({ model: 'Kar 110' }), row(cells)]);
    expect(faults.map((fault) => fault.row)).toEqual(faults.map(() => 3));
    expect(faults.map((fault) => fault.column)).toContain(column);
    expect(faults.find((fault) => fault.column === column)!.wants).toMatch(says);
  });

  it.each([
    ['a head that is none', [...HEADS, 'colour'], 'colour', /is no column/],
    ['a head twice', [...HEADS, 'model'], 'model', /stands here twice/],
    ['no sources', HEADS.filter((head) => head !== 'source'), 'source', /is missing/],
  ] as const)('[CAT-2] with %s is refused as a whole', (_about, heads, column, says) => {
    const [fault] = faultsOf([heads, heads.map(() => '')]);
    expect(fault).toMatchObject({ row: 1, column });
    expect(fault!.wants).toMatch(says);
  });

  it('[CAT-2] with a cell too many, a model twice, or nothing at all says so', () => {
    expect(faultsOf([HEADS, [...row(), 'more']])).toEqual([
      { row: 2, column: '', wants: `has ${HEADS.length + 1} cells under ${HEADS.length} heads` },
    ]);
    expect(faultsOf([HEADS, row(), row({ model: ' tarn  100' })])).toEqual([
      { row: 3, column: 'model', wants: 'stands in row 2 already' },
    ]);
    expect(faultsOf([])).toEqual([{ row: 1, column: '', wants: 'is empty: the heads are wanted' }]);
    expect(faultsOf([HEADS])).toEqual([{ row: 2, column: '', wants: 'has no model' }]);
  });

  it('[CAT-3] with one bad cell gives no model, and says of every bad cell', () => {
    const faults = faultsOf([
      HEADS,
      row({ 'spacing mm': 'x' }),
      row({ model: 'B', pivots: '', 'mark mm': 'y' }),
    ]);
    expect(faults.map((fault) => [fault.row, fault.column])).toEqual([
      [2, 'spacing mm'],
      [3, 'pivots'],
      [3, 'mark mm'],
    ]);
  });
});

const reach = fc.record({ upMm: fc.integer({ min: 0, max: 25 }), downMm: fc.integer({ min: 0, max: 25 }) });
const half = (min: number, max: number) => fc.integer({ min: 2 * min, max: 2 * max }).map((n) => n / 2);
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const name = (max: number) =>
  fc.string({ minLength: 1, maxLength: max }).map((text) => `m${text}`.trim().slice(0, max));
/** Any model that the shape admits. */
const anyBoot: fc.Arbitrary<CatalogueBoot> = fc
  .record({
    model: name(60),
    source: name(80),
    pivots: fc.constantFrom('dual' as const, 'single' as const),
    lateral: reach,
    medial: reach,
    spacing: half(40, 150),
    height: half(40, 320),
    lean: maybe(half(-10, 10)),
    mark: maybe(half(1, 10)),
    width: maybe(half(30, 130)),
    replaceable: maybe(fc.boolean()),
    place: fc.integer({ min: -25, max: 25 }),
  })
  .map(
    ({ model, source, pivots, lateral, medial, spacing, height, lean, mark, width, replaceable, place }) => {
      const fits = place <= lateral.upMm && place >= -lateral.downMm;
      return {
        model,
        source,
        soleStandard: 'iso23223-a',
        hardware: {
          pivots,
          pivotSpacingMm: spacing,
          readingHeightMm: height,
          travel: pivots === 'dual' ? { lateral, medial } : { lateral },
          ...(lean === undefined ? {} : { factoryLeanDeg: lean }),
          ...(mark === undefined ? {} : { markMm: mark }),
          ...(fits ? { positions: { lateral: [{ label: 'A', mm: place }] } } : {}),
        },
        ...(width === undefined ? {} : { soleWidthToeMm: width }),
        ...(replaceable === undefined ? {} : { soleReplaceable: replaceable }),
      } as unknown as CatalogueBoot;
    },
  );

it('[CAT-4] a catalogue written as a table is read back as it was', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(anyBoot, {
        minLength: 1,
        maxLength: 12,
        selector: ({ model }) => model.trim().replace(/\s+/g, ' ').toLowerCase(),
      }),
      (boots) => {
        for (const boot of boots) expect(readBoot(boot)).toEqual({ ok: true, boot });
        expect(readModelTable(modelTable(boots))).toEqual({ ok: true, boots });
      },
    ),
  );
});
