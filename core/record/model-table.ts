/**
 * The catalogue as a table of texts: one model a row, one number a column. What is wrong is said by row and column, all of
 * it at once, and a table with anything wrong gives no model at all.
 */
import { readBoot, sameModel } from './models.ts';
import type { CatalogueBoot } from './models.ts';
import { typedNumber, typedPlaces } from './typed.ts';

/** A cell at fault. Rows count as a person sees them in a spreadsheet: the heads are row 1. */
export interface CellFault {
  readonly row: number;
  /** Head of the column; '' for the row or the table as a whole. */
  readonly column: string;
  readonly wants: string;
}

export type ReadTable =
  | { readonly ok: true; readonly boots: readonly CatalogueBoot[] }
  | { readonly ok: false; readonly faults: readonly CellFault[] };

/** At most so many faults are said: past that it is another table that was meant. */
export const MOST_FAULTS = 100;

type Form = 'text' | 'number' | 'yes' | 'places';
interface Column {
  readonly head: string;
  readonly path: string;
  readonly form: Form;
  readonly needed?: true;
}

const column = (head: string, path: string, form: Form = 'number', needed?: true): Column => ({
  head,
  path,
  form,
  ...(needed ? { needed } : {}),
});

export const MODEL_COLUMNS: readonly Column[] = [
  column('model', 'model', 'text', true),
  column('source', 'source', 'text', true),
  column('pivots', 'hardware.pivots', 'text', true),
  column('spacing mm', 'hardware.pivotSpacingMm', 'number', true),
  column('reading height mm', 'hardware.readingHeightMm', 'number', true),
  column('factory lean deg', 'hardware.factoryLeanDeg'),
  column('lateral up mm', 'hardware.travel.lateral.upMm', 'number', true),
  column('lateral down mm', 'hardware.travel.lateral.downMm', 'number', true),
  column('medial up mm', 'hardware.travel.medial.upMm'),
  column('medial down mm', 'hardware.travel.medial.downMm'),
  column('mark mm', 'hardware.markMm'),
  column('lateral places', 'hardware.positions.lateral', 'places'),
  column('medial places', 'hardware.positions.medial', 'places'),
  column('slots may lengthen', 'hardware.slotsMayLengthen', 'yes'),
  column('hole to edge mm', 'hardware.holeEdgeMm'),
  column('least hole to edge mm', 'hardware.minHoleEdgeMm'),
  column('sole standard', 'soleStandard', 'text', true),
  column('sole width toe mm', 'soleWidthToeMm'),
  column('sole width heel mm', 'soleWidthHeelMm'),
  column('sole replaceable', 'soleReplaceable', 'yes'),
  column('sole insert mm', 'soleInsertMm'),
  column('zone spacing mm', 'zoneSpacingMm'),
  column('sole material mm', 'soleMaterialMm'),
  column('walk mode', 'walkMode', 'yes'),
];

/** A cell's value, or what is wanted of it. */
type Cell = { readonly value: unknown } | { readonly wants: string };

/** `A -4; B 0; C 3,5`: each its label, then millimetres up from factory neutral. */
function placesOf(text: string): Cell {
  const read = typedPlaces(text);
  if (read.ok) return { value: read.places };
  return 'twice' in read
    ? { wants: `has the place ${read.twice} twice` }
    : { wants: `must be places like A -4; B 0; C 3.5 (has “${read.unread.slice(0, 40)}”)` };
}

function cellOf(text: string, form: Form): Cell {
  const shown = `(is “${text.slice(0, 40)}”)`;
  switch (form) {
    case 'text':
      return { value: text };
    case 'number': {
      const value = typedNumber(text);
      return value === null ? { wants: `must be a number ${shown}` } : { value };
    }
    case 'yes':
      return text === 'yes' || text === 'no'
        ? { value: text === 'yes' }
        : { wants: `must be yes or no ${shown}` };
    case 'places':
      return placesOf(text);
    default:
      return form satisfies never;
  }
}

function put(into: Record<string, unknown>, path: string, value: unknown): void {
  const steps = path.split('.');
  const last = steps.pop()!;
  const at = steps.reduce<Record<string, unknown>>(
    (here, step) => (here[step] ??= {}) as Record<string, unknown>,
    into,
  );
  at[last] = value;
}

/** The column whose field this is, or whose field it lies in or holds. */
const headOf = (field: string): string =>
  MODEL_COLUMNS.find(({ path }) => path === field || field.startsWith(`${path}.`))?.head ??
  MODEL_COLUMNS.find(({ path }) => path.startsWith(`${field}.`))?.head ??
  '';

function headFaults(heads: readonly string[]): CellFault[] {
  const known = MODEL_COLUMNS.map(({ head }) => head);
  return [
    ...heads
      .filter((head, i) => !known.includes(head) || heads.indexOf(head) !== i)
      .map((head) => ({
        row: 1,
        column: head,
        wants: known.includes(head) ? 'stands here twice' : `is no column of this table: ${known.join(', ')}`,
      })),
    ...MODEL_COLUMNS.filter(({ head, needed }) => needed && !heads.includes(head)).map(({ head }) => ({
      row: 1,
      column: head,
      wants: 'is missing',
    })),
  ];
}

function rowOf(heads: readonly string[], cells: readonly string[], row: number) {
  const faults: CellFault[] = [];
  const filled = cells.findLastIndex((cell) => cell.trim() !== '') + 1;
  if (filled > heads.length)
    faults.push({ row, column: '', wants: `has ${filled} cells under ${heads.length} heads` });
  const value: Record<string, unknown> = {};
  for (const { head, path, form, needed } of MODEL_COLUMNS) {
    const text = (cells[heads.indexOf(head)] ?? '').trim();
    if (text === '') {
      if (needed) faults.push({ row, column: head, wants: 'is empty' });
      continue;
    }
    const cell = cellOf(text, form);
    if ('wants' in cell) faults.push({ row, column: head, wants: cell.wants });
    else put(value, path, cell.value);
  }
  if (faults.length > 0) return { faults };
  const read = readBoot(value);
  return read.ok
    ? { boot: read.boot }
    : { faults: read.misfits.map(({ field, wants }) => ({ row, column: headOf(field), wants })) };
}

/**
 * @param rows texts of the cells, the heads first; rows without any text are passed over
 */
export function readModelTable(rows: readonly (readonly string[])[]): ReadTable {
  const [first, ...rest] = rows;
  if (!first) return { ok: false, faults: [{ row: 1, column: '', wants: 'is empty: the heads are wanted' }] };
  const heads = first.map((head) => head.trim().toLowerCase());
  while (heads.at(-1) === '') heads.pop();
  const faults = headFaults(heads);
  if (faults.length > 0) return { ok: false, faults };
  const boots: CatalogueBoot[] = [];
  const rowsOf = new Map<string, number>();
  for (const [i, cells] of rest.entries()) {
    if (cells.every((cell) => cell.trim() === '')) continue;
    const row = i + 2;
    const read = rowOf(heads, cells, row);
    if (!read.boot) {
      faults.push(...read.faults);
      continue;
    }
    const key = sameModel(read.boot.model);
    const before = rowsOf.get(key);
    if (before !== undefined) faults.push({ row, column: 'model', wants: `stands in row ${before} already` });
    rowsOf.set(key, row);
    boots.push(read.boot);
  }
  if (faults.length > 0) return { ok: false, faults: faults.slice(0, MOST_FAULTS) };
  if (boots.length === 0) return { ok: false, faults: [{ row: 2, column: '', wants: 'has no model' }] };
  return { ok: true, boots };
}

const textOf = (value: unknown, form: Form): string => {
  if (value === undefined) return '';
  if (form === 'yes') return value === true ? 'yes' : 'no';
  if (form === 'places')
    return (value as { label: string; mm: number }[]).map(({ label, mm }) => `${label} ${mm}`).join('; ');
  return String(value);
};

/** The same table of these models, heads first; `readModelTable` gives the same models back. */
export const modelTable = (boots: readonly CatalogueBoot[]): string[][] => [
  MODEL_COLUMNS.map(({ head }) => head),
  ...boots.map((boot) =>
    MODEL_COLUMNS.map(({ path, form }) =>
      textOf(
        path
          .split('.')
          .reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], boot),
        form,
      ),
    ),
  ),
];
