/** Rows of a catalogue's table: one that fits, and some that do not, each with what is said of it. */
import { MODEL_COLUMNS } from '../../core/index.ts';

export const HEADS = MODEL_COLUMNS.map(({ head }) => head);

/** A whole row; what is given takes the place of its cell. */
export const row = (cells: Readonly<Record<string, string>> = {}): string[] => {
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

/** Thirty-odd rows that cannot be taken: what is wrong, the cell, and a part of what is said of it. */
export const BAD: readonly [about: string, cells: Record<string, string>, column: string, says: RegExp][] = [
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
