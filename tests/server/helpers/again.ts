/** What a station does when it meets another generation of a session, and how a paired browser pairs anew. */
import { randomInt } from 'node:crypto';
import * as Y from 'yjs';
import { CLIENT_SPAN } from '../../../core/index.ts';
import type { Fact } from '../../../core/index.ts';
import type { Station } from '../../../demo/station.ts';
import { idsOf, Wire } from './wire.ts';
import type { Heard } from './wire.ts';

export interface RoomAnswer {
  readonly room: string;
  readonly known: boolean;
  readonly erased: boolean;
}

export const roomOf = ({ url, cookie }: Who, session: string): Promise<RoomAnswer> =>
  fetch(`${url}/api/sessions/${session}/room`, { headers: { cookie } }).then(
    (answer) => answer.json() as Promise<RoomAnswer>,
  );

export type Who = Pick<Station, 'url' | 'cookie'> & { readonly me: { readonly number: number } };

/** Sends `facts` as they are, behind all that the server has. @returns what the server said to it. */
export async function send(who: Who, session: string, facts: readonly Fact[]): Promise<Heard> {
  const { room } = await roomOf(who, session);
  const wire = await new Wire(who.url, room, { cookie: who.cookie }).open();
  try {
    const doc = await wire.document();
    doc.clientID = who.me.number * CLIENT_SPAN + randomInt(2 ** 32);
    const before = Y.encodeStateVector(doc);
    doc.getArray('facts').push([...facts]);
    const from = wire.heard.length;
    wire.sendUpdate(Y.encodeStateAsUpdate(doc, before));
    return await Promise.race([
      wire.hears('durable', ({ clocks }) => clocks.get(doc.clientID) === facts.length, from),
      wire.hears('refused', () => true, from),
      wire.hears('already', () => true, from),
    ]);
  } finally {
    wire.close();
  }
}

/** Offers those of its own facts that the server does not have. @returns the ids that were missing and are saved now. */
export async function offerAgain(who: Who, session: string, kept: readonly Fact[]): Promise<string[]> {
  const { room } = await roomOf(who, session);
  const wire = await new Wire(who.url, room, { cookie: who.cookie }).open();
  const there = new Set(idsOf(await wire.document()));
  wire.close();
  const missing = kept.filter(({ id }) => !there.has(id));
  if (missing.length === 0) return [];
  const said = await send(who, session, missing);
  if (said.is !== 'durable') throw new Error(`not saved: ${JSON.stringify(said)}`);
  return missing.map(({ id }) => id);
}
