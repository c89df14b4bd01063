/** What one session counts in the shop's numbers. */
import { describe, expect, it } from 'vitest';
import { tallyOf } from '../../core/index.ts';
import { teaching } from '../helpers/lessons.ts';
import { shift } from '../../core/maths/cuff.ts';
import { hardwareOf } from '../../core/guide/side.ts';
import { mm } from '../../core/units.ts';
import { DUAL } from '../helpers/facts.ts';

/** A cuff that stands even at the last of these settings. */
function cuff(settings: readonly number[], close = true) {
  const at = settings.at(-1)!;
  const biasMm = 2 * shift(hardwareOf(DUAL), { medialMm: mm(at), lateralMm: mm(-at) });
  return teaching({ settings, biasMm, close });
}

describe('a cuff that is closed', () => {
  it.each([
    [[0], 0],
    [[0, 1], 1],
    [[0, 0.5, 1], 2],
  ] as const)('[NUM-5] counts with the moves that were read: %j', (settings, moves) => {
    expect(tallyOf(cuff(settings).facts).cuffs).toMatchObject([{ side: 'left', decision: 'even', moves }]);
  });

  it('[NUM-5] counts no reading twice, and no move that nobody read after', () => {
    const told = cuff([0, 1], false);
    told.read('left', 11, 11);
    told.add('cuff.closed', { side: 'left', decision: 'even' }, { role: 'measuring' });
    expect(tallyOf(told.facts).cuffs).toMatchObject([{ moves: 1 }]);
    told.add('cuff.set', { side: 'left', medialMm: 3, lateralMm: -3 });
    expect(tallyOf(told.facts).cuffs).toEqual([]);
  });

  it('[NUM-5] counts as what it was closed as, and not at all where its readings say otherwise', () => {
    const accepted = teaching({ settings: [0, 0.5] });
    accepted.add('cuff.closed', { side: 'left', decision: 'accepted' }, { role: 'measuring' });
    expect(tallyOf(accepted.facts).cuffs).toMatchObject([{ decision: 'accepted', moves: 1 }]);
    expect(tallyOf(teaching({ settings: [0, 0.5], close: true }).facts).cuffs).toEqual([]);
  });

  it('[NUM-5] counts no more once its closing was struck', () => {
    const told = cuff([0, 1]);
    const closed = told.facts.at(-1)!.id;
    expect(tallyOf(told.facts).cuffs[0]!.fact).toBe(closed);
    told.add('struck', { fact: closed, reason: 'a slip' }, { role: 'measuring' });
    expect(tallyOf(told.facts).cuffs).toEqual([]);
  });
});

describe('boots that left', () => {
  it('[NUM-5] were handed over or released unfit, by the entry that stands', () => {
    const told = cuff([0]);
    expect(tallyOf(told.facts).left).toBeNull();
    const first = told.add('handed.over', { acknowledgedBy: 'owner' });
    expect(tallyOf(told.facts).left).toEqual({ as: 'handed', fact: first });
    told.add('struck', { fact: first, reason: 'opened again' }, { role: 'desk' });
    expect(tallyOf(told.facts).left).toBeNull();
    const last = told.add('released.unfit', { what: 'a crack', acknowledgedBy: 'owner' });
    expect(tallyOf(told.facts).left).toEqual({ as: 'unfit', fact: last });
  });

  it('counts nothing of facts that are not a session', () => {
    expect(tallyOf([])).toEqual({ left: null, cuffs: [] });
  });
});
