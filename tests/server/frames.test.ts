/** Frames: what is written is read again, and what is no frame is none. */
import * as encoding from 'lib0/encoding';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { MESSAGE } from '../../core/index.ts';
import {
  alreadySavedFrame,
  durableFrame,
  presenceFrame,
  readFrame,
  refusedFrame,
  step1Frame,
  step2Frame,
  updateFrame,
} from '../../server/frames.ts';
import { BOUND } from '../../server/limits.ts';

const bytes = (...numbers: number[]) => new Uint8Array(numbers);
const NOTHING = Y.encodeStateVector(new Y.Doc());

describe('a frame', () => {
  it('is read as it was written', () => {
    expect(readFrame(step1Frame(NOTHING))).toEqual({ type: 'step1', stateVector: NOTHING });
    expect(readFrame(step2Frame(bytes(1, 2)))).toEqual({ type: 'update', update: bytes(1, 2) });
    expect(readFrame(updateFrame(bytes(1, 2)))).toEqual({ type: 'update', update: bytes(1, 2) });
    expect(readFrame(bytes(MESSAGE.queryAwareness))).toEqual({ type: 'presence-wanted' });
    const entries = [
      { client: 7, clock: 1, state: { role: 'desk' } },
      { client: 8, clock: 2, state: null },
    ];
    expect(readFrame(presenceFrame(entries))).toEqual({ type: 'presence', entries });
  });

  it('of the server’s own, and of a newer station, is of an unknown number, whatever follows', () => {
    for (const frame of [
      durableFrame(new Map([[7, 3]])),
      refusedFrame({ code: 'shape', fact: null, field: '', wants: '', client: 7 }),
      alreadySavedFrame(['a']),
      bytes(55, 1, 2, 3),
    ])
      expect(readFrame(frame)).toMatchObject({ type: 'unknown', number: frame[0]! });
  });

  it.each<[string, Uint8Array]>([
    ['nothing', bytes()],
    ['a number without an end', bytes(255, 255, 255, 255, 255, 255, 255, 255, 255, 255)],
    ['an unknown sync step', bytes(0, 9, 0)],
    ['a body shorter than it says', bytes(0, 2, 90, 1)],
    ['a state vector that is none', step1Frame(bytes(200))],
    ['something behind the end', bytes(...updateFrame(bytes(1)), 0)],
    ['presence that is no JSON', bytes(1, 5, 1, 1, 1, 1, 123)],
    ['presence of fewer than it says', bytes(1, 1, 9)],
    [
      'presence longer than presence is',
      presenceFrame([{ client: 1, clock: 1, state: 'x'.repeat(BOUND.presenceBytes) }]),
    ],
    ['presence nested without end', nestedPresence(100_000)],
  ])('is not: %s', (_title, frame) => {
    expect(readFrame(frame)).toBeNull();
  });
});

function nestedPresence(levels: number): Uint8Array {
  const inner = encoding.createEncoder();
  for (const number of [1, 1, 1]) encoding.writeVarUint(inner, number);
  encoding.writeVarString(inner, `${'['.repeat(levels)}${']'.repeat(levels)}`);
  const outer = encoding.createEncoder();
  encoding.writeVarUint(outer, MESSAGE.awareness);
  encoding.writeVarUint8Array(outer, encoding.toUint8Array(inner));
  return encoding.toUint8Array(outer);
}
