/** The graph of what rests on what for docs/staleness.md, made from the table that the core itself uses. */
import { KIND_NAMES } from '../../core/index.ts';
import type { Kind } from '../../core/index.ts';
import { RESTS } from '../../core/record/rests.ts';
import type { Edge, Hold } from '../../core/record/rests.ts';

/** How each hold is drawn, and what it means; in the order of the columns. */
const HOLDS: Readonly<
  Record<Exclude<Hold, 'own'>, { readonly arrow: string | null; readonly means: string }>
> = {
  value: { arrow: '-->', means: 'another value there makes the entry stale; put back, it is current again' },
  members: { arrow: '-->|any|', means: 'one more entry there, or one taken away, makes it stale' },
  through: {
    arrow: '==>',
    means:
      'judged with the entries there: stale once those it was made from are stale or count no more, a chosen cant also once others count',
  },
  record: {
    arrow: '-.->',
    means:
      'taken as its author knew it, whatever is entered later; once that record is struck with nothing in its place, the entry counts no more',
  },
  known: { arrow: null, means: 'named in the basis, so that order is known; nothing there makes it stale' },
};

const PLACE = { side: 'left', item: '‹item›', adjuster: '‹adjuster›', when: '‹when›' } as const;

/** `pivots/left` is its own side's, `pivots/right` the other's. */
const shown = (name: string): string =>
  name.replace('/left', '').replace('/right', ' of the other boot').replace(/\/$/, '/…');

const slotsOf = ({ on }: Edge): string[] => on(PLACE).map(shown);
const slots = (kind: Kind, hold: Hold): string[] =>
  RESTS[kind].filter((edge) => edge.hold === hold).flatMap(slotsOf);

const RESTING = KIND_NAMES.filter((kind) => RESTS[kind].some(({ hold }) => hold !== 'own'));
const FREE = KIND_NAMES.filter((kind) => !RESTING.includes(kind));

const drawn = (kind: Kind): boolean =>
  RESTS[kind].some(({ hold }) => hold !== 'own' && HOLDS[hold].arrow !== null);

/** The kind of entry that fills a slot and itself rests on others, so that the graph has one node for both. */
const filler = (slot: string): string =>
  RESTING.find((kind) => drawn(kind) && slots(kind, 'own').includes(slot)) ?? slot;

/** Letters and digits only: what a node of the graph may be called. */
const node = (label: string): string =>
  label.replace(/[^A-Za-z]+(\w?)/g, (_, next: string) => next.toUpperCase());

function graph(): string {
  const arrows = RESTING.flatMap((kind) =>
    (Object.keys(HOLDS) as (keyof typeof HOLDS)[]).flatMap((hold) => {
      const { arrow } = HOLDS[hold];
      return arrow === null
        ? []
        : slots(kind, hold).map((slot) => ({ from: filler(slot), arrow, to: kind as string }));
    }),
  );
  const labels = [...new Set(arrows.flatMap(({ from, to }) => [from, to]))];
  return [
    '```mermaid',
    'graph LR',
    ...labels.map((label) => `  ${node(label)}["${label}"]`),
    ...arrows.map(({ from, arrow, to }) => `  ${node(from)} ${arrow} ${node(to)}`),
    '```',
  ].join('\n');
}

const cell = (names: readonly string[]): string => names.map((name) => `\`${name}\``).join(', ') || '–';

export function stalenessPage(): string {
  const holds = Object.keys(HOLDS) as (keyof typeof HOLDS)[];
  return [
    '# What rests on what',
    'Made from `core/record/rests.ts` by `npm run docs`. The same table gives each new entry its basis and says what makes an old one stale; ' +
      '`tests/properties/staleness.test.ts` changes every slot in it and finds exactly these dependents stale, and current again once the slot is put back.',
    'Facts are grouped in *slots*, things that have one value at a time (`docs/session-format.md`): `pivots` are those of the boot the entry speaks of. ' +
      'Numbers, status and sentences of the plan are worked out anew from what is current, so they are never stale themselves.',
    graph(),
    ['| | |', '| --- | --- |', ...holds.map((hold) => `| ${hold} | ${HOLDS[hold].means} |`)].join('\n'),
    [
      `| entry | ${holds.join(' | ')} |`,
      `| --- | ${holds.map(() => '---').join(' | ')} |`,
      ...RESTING.map(
        (kind) => `| \`${kind}\` | ${holds.map((hold) => cell(slots(kind, hold))).join(' | ')} |`,
      ),
    ].join('\n'),
    `These rest on nothing but what stood in their own place: ${FREE.map((kind) => `\`${kind}\``).join(', ')}.`,
    '## Beside the table',
    [
      '- A closed cuff given up for another boot stays closed whatever changes.',
      '- A cuff reading at other pivots than today’s is superseded, not stale: it is still evidence.',
      '- Without a description of the boot nothing of it is judged.',
      '- A cant chosen with an override stays chosen; a fitted plate that is not the chosen cant makes the work due again, and is not stale.',
      '- The sole measured before the work is taken as it was; only the finished one is judged.',
      '- A wedge fitted since a fore-aft reading is added to its angles, and does not spoil it.',
    ].join('\n'),
    '',
  ].join('\n\n');
}
