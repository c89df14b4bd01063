/** What an attack on the gate is, and who is there. */
import type * as Y from 'yjs';
import type { GateWriter, RuleName, Verdict } from '../../../server/gate-rule.ts';
import { any, craft, item } from './craft.ts';
import type { Struct } from './craft.ts';
import { clientOf, floor } from './entries.ts';

export interface Attack {
  readonly rule: RuleName;
  readonly title: string;
  readonly bytes: Uint8Array;
  /** `MEASURING` when left out. */
  readonly writer?: GateWriter;
  /** A session with its first fact when left out. */
  readonly doc?: Y.Doc;
  readonly answer: Verdict['do'];
  /** What would be done without the rule; a second rule that also objects is named. */
  readonly otherwise: 'take' | 'nothing' | 'ask' | 'throw' | RuleName;
}

export const DESK = clientOf(3);
export const OWN = clientOf(5);
export const MEASURING: GateWriter = {
  number: 5,
  device: 'measuring-5',
  roles: ['measuring'],
  readOnly: false,
};
export const AT_DESK: GateWriter = { number: 3, device: 'desk-3', roles: ['desk'], readOnly: false };
/** `session.opened`, as `openSession(DESK)` holds it. */
export const FIRST = { client: DESK, clock: 0 };

/** One section of the measuring station's own client, behind `session.opened`. */
export const own = (...structs: Struct[]) => craft({ sections: [{ client: OWN, clock: 0, structs }] });
export const honest = own(item(any(floor('f1')), { origin: FIRST }));

export const many = (count: number, make: (index: number) => Record<string, unknown>) =>
  Array.from({ length: count }, (_, index) => make(index));
