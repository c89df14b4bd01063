/** Which entries count, and which one undo takes back. */
import { describe, expect, it } from 'vitest';
import { latest, struckBy, undoable } from '../../stations/kit/entries.ts';
import { story } from '../helpers/facts.ts';

/** A list of facts is never changed in place: each look is at a list of its own. */
const read = (told: ReturnType<typeof story>) =>
  latest([...told.facts], 'cuff.read', (fact) => fact.side === 'left')?.medialMm;

describe('struck entries', () => {
  it('no longer count, until the strike is struck in turn', () => {
    const told = story();
    told.read('left', 12, 6);
    const wrong = told.read('left', 22, 6);
    expect(read(told)).toBe(22);
    const strike = told.add('struck', { fact: wrong, reason: 'typing error' }, { role: 'measuring' });
    expect(read(told)).toBe(12);
    expect(struckBy([...told.facts]).get(wrong)?.reason).toBe('typing error');
    told.add('struck', { fact: strike, reason: 'it was right' }, { role: 'measuring' });
    expect(read(told)).toBe(22);
    expect(struckBy([...told.facts]).has(wrong)).toBe(false);
  });

  it('stay where the one who struck them may not', () => {
    const told = story();
    const kept = told.read('left', 12, 6);
    told.add('struck', { fact: kept, reason: 'not mine to strike' }, { role: 'bench' });
    expect(struckBy([...told.facts]).has(kept)).toBe(false);
    expect(read(told)).toBe(12);
  });

  it('are found by side, and none is found where there is none', () => {
    const told = story();
    told.read('right', 5, 13);
    expect(read(told)).toBeUndefined();
    expect(latest([...told.facts], 'handed.over')).toBeUndefined();
  });
});

describe('undo', () => {
  it('takes back this device’s own last entry only', () => {
    const told = story();
    const last = told.read('left', 12, 6);
    expect(undoable(told.facts, 'measuring-1')?.id).toBe(last);
    expect(undoable(told.facts, 'measuring-2')).toBeNull();
  });

  it('is never the opening and never a strike', () => {
    const told = story();
    expect(undoable(told.facts.slice(0, 1), 'desk-1')).toBeNull();
    const wrong = told.read('left', 12, 6);
    told.add('struck', { fact: wrong, reason: 'undo' }, { role: 'measuring' });
    expect(undoable(told.facts, 'measuring-1')).toBeNull();
    expect(undoable([], 'measuring-1')).toBeNull();
  });
});
