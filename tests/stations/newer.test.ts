/** Entries of a newer program in a session that this page shows: kept, named, and without effect. */
import { expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { readFacts } from '../../stations/kit/log.ts';
import { factSentence } from '../../stations/kit/words/facts.ts';
import { story } from '../helpers/facts.ts';

function withLater(later: Record<string, unknown>) {
  const told = story();
  told.read('left', 12, 6);
  const { at, by } = told.facts.at(-1)!;
  const here = plan(told.facts);
  const read = readFacts([...told.facts, { id: 'later', at, by, ...later }]);
  return { here, read, last: read.at(-1)! };
}

it('of a kind that this page does not know are shown by its name and change nothing', () => {
  const { here, read, last } = withLater({ kind: 'floor.swept', side: 'left', medialMm: 3 });
  expect(last.id).toBe('later');
  expect(factSentence(last)).toBe('Entry of a kind this version does not know: floor.swept');
  expect(plan(read)).toEqual(here);
});

it('of a later version of a known kind are not read as if they were of this one', () => {
  const { here, read, last } = withLater({
    kind: 'cuff.read',
    v: 99,
    side: 'left',
    medialMm: 3,
    lateralMm: 3,
  });
  expect(factSentence(last)).toBe('Entry of a kind this version does not know: cuff.read (version 99)');
  expect(plan(read)).toEqual(here);
});

it('that are no entries at all are left out, and the rest is shown', () => {
  const { here, read } = withLater({ kind: 7 });
  expect(read.map(({ id }) => id)).not.toContain('later');
  expect(plan(read)).toEqual(here);
});
