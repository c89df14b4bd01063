/** What the gate says of honest updates and of broken ones, and why some of its rules are there. */
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Fact } from '../../core/index.ts';
import { gate } from '../../server/gate.ts';
import { BOUND } from '../../server/limits.ts';
import { AT_DESK, DESK, FIRST, honest, many, MEASURING, own, OWN } from './helpers/attack.ts';
import { entryAttacks } from './helpers/attacks-entries.ts';
import { updateAttacks } from './helpers/attacks-update.ts';
import { any, craft, item, listsInLists, map, text } from './helpers/craft.ts';
import { entry, floor, opened, reading, snow } from './helpers/entries.ts';
import { openSession, viewOf } from './helpers/view.ts';

describe('the gate', () => {
  it('takes an honest fact and foretells what the document becomes', () => {
    const doc = openSession(DESK);
    const verdict = gate(honest, viewOf(doc), MEASURING);
    expect(verdict).toMatchObject({ do: 'take', facts: [{ id: 'f1' }], clocks: new Map([[OWN, 1]]) });
    Y.applyUpdate(doc, honest);
    expect(Y.getState(doc.store, OWN)).toBe(1);
    expect(doc.getArray('facts').toArray()).toEqual([opened(), floor('f1')]);
  });

  it('takes an honest backlog of 200 facts with what is known already before it', () => {
    const station = new Y.Doc();
    Y.applyUpdate(station, Y.encodeStateAsUpdate(openSession(DESK)));
    station.clientID = OWN;
    station.getArray('facts').push([floor('f0')]);
    const doc = openSession(DESK);
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(station));
    for (let i = 1; i <= 200; i++) station.getArray('facts').push([floor(`f${i}`)]);
    const verdict = gate(Y.encodeStateAsUpdate(station), viewOf(doc), MEASURING);
    expect(verdict.do).toBe('take');
    if (verdict.do !== 'take') return;
    expect(verdict.facts.map(({ id }) => id)).toEqual(
      many(200, (i) => ({ id: `f${i + 1}` })).map(({ id }) => id),
    );
    expect(verdict.clocks).toEqual(new Map([[OWN, 201]]));
  });

  it('sees a fact that another client of the same update strikes', () => {
    const bytes = craft({
      sections: [
        {
          client: OWN + 1,
          clock: 0,
          structs: [
            item(
              any(entry('x', 'measuring', 'measuring-5', { kind: 'struck', fact: 'f1', reason: 'undo' })),
              {
                origin: { client: OWN, clock: 0 },
              },
            ),
          ],
        },
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
      ],
    });
    const verdict = gate(bytes, viewOf(openSession(DESK)), MEASURING);
    expect(verdict).toMatchObject({ do: 'take', facts: [{ id: 'f1' }, { id: 'x' }] });
  });

  it('says which facts are there already with the same value, and takes nothing', () => {
    const doc = openSession(DESK);
    Y.applyUpdate(doc, honest);
    const again = craft({
      sections: [
        {
          client: OWN + 1,
          clock: 0,
          structs: [item(any(floor('f1'), floor('f2')), { origin: { client: OWN, clock: 0 } })],
        },
      ],
    });
    expect(gate(again, viewOf(doc), MEASURING)).toMatchObject({ do: 'refuse', refused: [], already: ['f1'] });
  });

  it('names each fact at fault, and the client that is blocked', () => {
    const bytes = own(
      item(any(floor('f1'), reading('r1', 900), floor('f1', 'measuring-5', 2)), { origin: FIRST }),
    );
    expect(gate(bytes, viewOf(openSession(DESK)), MEASURING)).toMatchObject({
      do: 'refuse',
      refused: [
        { code: 'shape', fact: 'r1', field: 'medialMm', client: OWN },
        { code: 'id-taken', fact: 'f1', client: OWN },
      ],
    });
  });

  it('names at most so many of the facts at fault', () => {
    const wrong = own(
      item(any(...many(BOUND.refusalsPerUpdate + 5, (i) => reading(`r${i}`, 900))), { origin: FIRST }),
    );
    const verdict = gate(wrong, viewOf(openSession(DESK)), MEASURING);
    expect(verdict.do === 'refuse' && verdict.refused.length).toBe(BOUND.refusalsPerUpdate);
  });

  it.each([true, false])('keeps to what is said of an erased session: %s', (erased) => {
    const view = viewOf(openSession(DESK));
    const facts = Object.assign(new Map(view.facts as Map<string, Fact>), { erased });
    const note = craft({
      sections: [
        { client: DESK, clock: 1, structs: [item(any(snow('s', 'desk-3', 'x')), { origin: FIRST })] },
      ],
    });
    expect(gate(note, { ...view, facts }, AT_DESK).do).toBe(erased ? 'refuse' : 'take');
  });

  it('has a reason for the rule about sections: Yjs would keep half of such an update waiting for ever', () => {
    const { bytes } = updateAttacks.find(({ rule }) => rule === 'sections')!;
    const doc = openSession(DESK);
    Y.applyUpdate(doc, bytes);
    expect(doc.store.pendingStructs).not.toBeNull();
  });

  it('has a reason for the rule about the first place: such a fact would stand before session.opened', () => {
    const { bytes } = entryAttacks.find(({ rule }) => rule === 'behind-the-first')!;
    const doc = openSession(DESK);
    Y.applyUpdate(doc, bytes);
    expect(doc.getArray<{ id: string }>('facts').get(0).id).toBe('f1');
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['one byte', new Uint8Array([1])],
    ['a text', own(item(text('hello'), { origin: FIRST }))],
    ['a map', own(item(map, { origin: FIRST }))],
    [
      'a count of structs that is not there',
      craft({ sections: [{ client: OWN, clock: 0, structs: [], announced: 2 ** 40 }] }),
    ],
    ['a count of sections that is not there', craft({ sections: [], announced: 2 ** 40 })],
    ['lists in lists without end', own(item(listsInLists(400_000), { origin: FIRST }))],
  ])('rejects %s without falling over', (_title, bytes) => {
    expect(gate(bytes, viewOf(openSession(DESK)), MEASURING).do).toBe('reject');
  });
});
