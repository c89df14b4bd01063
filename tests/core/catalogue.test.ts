/** The shop's catalogue of boots, as a table: what fits comes back as it was, and what does not is said by row and column. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MODEL_COLUMNS, modelTable, readBoot, readModelTable } from '../../core/index.ts';
import type { CatalogueBoot, CellFault } from '../../core/index.ts';

const HEADS = MODEL_COLUMNS.map(({ head }) => head);

/** A whole row; what is given takes the place of its cell. */
const row = (cells: Readonly<Record<string, string>> = {}): string[] => {
  const whole: Record<string, string> = {
    model: 'Tarn 100',
    source: 'measured here, autumn 2026',
    pivots: 'dual',
    'spacing mm': '84',
    'reading height mm': '160',
    'factory lean deg': '1,5',
    'lateral up mm': '5',
    'lateral down mm': '5',
    'medial up mm': '4.5',
    'medial down mm': '4.5',
    'mark mm': '1',
    'sole standard': 'iso5355-a',
    'sole width toe mm': '69',
    'sole replaceable': 'no',
    'walk mode': 'no',
    ...cells,
  };
  return HEADS.map((head) => whole[head] ?? '');
};

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

  /** Thirty-odd rows that cannot be taken: what is wrong, the cell, and a part of what is said of it. */
  const BAD: readonly [about: string, cells: Record<string, string>, column: string, says: RegExp][] = [
    ['no model', { model: '' }, 'model', /is empty/],
    ['blanks for a model', { model: '   ' }, 'model', /is empty/],
    ['a model of 200 letters', { model: 'T'.repeat(200) }, 'model', /at most 120 characters/],
    ['no source', { source: '' }, 'source', /is empty/],
    ['a source of 500 letters', { source: 's'.repeat(500) }, 'source', /at most 400 characters/],
    ['no pivots', { pivots: '' }, 'pivots', /is empty/],
    ['pivots that are none', { pivots: 'triple' }, 'pivots', /must be dual, single, fixed/],
    ['pivots in capitals', { pivots: 'Dual' }, 'pivots', /must be dual, single, fixed/],
    ['no spacing', { 'spacing mm': '' }, 'spacing mm', /is empty/],
    ['a spacing in words', { 'spacing mm': 'wide' }, 'spacing mm', /must be a number \(is “wide”\)/],
    ['a unit in the cell', { 'spacing mm': '84 mm' }, 'spacing mm', /must be a number/],
    ['a spacing in centimetres', { 'spacing mm': '8.4' }, 'spacing mm', /at least 40 \(is 8.4\)/],
    ['a spacing of a sledge', { 'spacing mm': '840' }, 'spacing mm', /at most 150 \(is 840\)/],
    ['comma and point', { 'reading height mm': '1.600,5' }, 'reading height mm', /must be a number/],
    ['a height below the pivots', { 'reading height mm': '-160' }, 'reading height mm', /at least 40/],
    ['a lean like a tower’s', { 'factory lean deg': '25' }, 'factory lean deg', /at most 10/],
    ['a lean with its sign behind', { 'factory lean deg': '1-' }, 'factory lean deg', /must be a number/],
    ['no lateral travel', { 'lateral up mm': '' }, 'lateral up mm', /is empty/],
    ['a travel downward below zero', { 'lateral down mm': '-5' }, 'lateral down mm', /at least 0/],
    ['a travel as long as a hand', { 'lateral up mm': '190' }, 'lateral up mm', /at most 25/],
    [
      'two adjusters with one travel',
      { 'medial up mm': '', 'medial down mm': '' },
      'medial up mm',
      /two adjusters have two travels/,
    ],
    ['half a medial travel', { 'medial down mm': '' }, 'medial down mm', /must be a number \(is missing\)/],
    ['a single pivot with two travels', { pivots: 'single' }, 'medial up mm', /is not there on single/],
    [
      'a fixed pivot that moves',
      { pivots: 'fixed', 'medial up mm': '', 'medial down mm': '' },
      'lateral up mm',
      /0 up and 0 down/,
    ],
    ['a mark of nothing', { 'mark mm': '0' }, 'mark mm', /at least 0.1/],
    ['places without millimetres', { 'lateral places': 'A; B' }, 'lateral places', /places like A -4/],
    ['places in words', { 'lateral places': 'A low' }, 'lateral places', /has “A low”/],
    ['a place twice', { 'lateral places': 'A -4; A 4' }, 'lateral places', /the place A twice/],
    [
      'a place outside the travel',
      { 'lateral places': 'A -4; B 9' },
      'lateral places',
      /the place B at 9, outside its travel/,
    ],
    ['a yes that is none', { 'slots may lengthen': 'x' }, 'slots may lengthen', /must be yes or no/],
    ['an edge below zero', { 'hole to edge mm': '-1' }, 'hole to edge mm', /at least 0/],
    ['no sole standard', { 'sole standard': '' }, 'sole standard', /is empty/],
    ['a standard that nobody knows', { 'sole standard': 'iso1' }, 'sole standard', /must be iso5355-a/],
    ['a sole wider than a ski bag', { 'sole width toe mm': '690' }, 'sole width toe mm', /at most 130/],
    ['an insert below zero', { 'sole insert mm': '-2' }, 'sole insert mm', /at least 0/],
  ];

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
