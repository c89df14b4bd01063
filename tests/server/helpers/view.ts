/** A document as the gate sees it. */
import * as Y from 'yjs';
import { stationOf } from '../../../core/index.ts';
import type { Fact } from '../../../core/index.ts';
import type { GateView } from '../../../server/gate-rule.ts';
import { opened } from './entries.ts';

/** A session that was opened by client `client` of station 3. */
export function openSession(client: number): Y.Doc {
  const doc = new Y.Doc();
  doc.clientID = client;
  doc.getArray('facts').push([opened()]);
  return doc;
}

export const viewOf = (doc: Y.Doc): GateView => ({
  clockOf: (client) => Y.getState(doc.store, client),
  clientsOf: (station) =>
    [...doc.store.clients.keys()].filter((client) => stationOf(client) === station).length,
  facts: new Map(doc.getArray<Fact>('facts').map((fact) => [fact.id, fact])),
});
