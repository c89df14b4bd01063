/** A session's document under a new generation: the same facts, and nothing of the old one. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { CLIENT_SPAN, stationOf } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { factsOf } from '../../server/document.ts';
import {
  baseGeneration,
  documentOf,
  greatestGeneration,
  nameClients,
  regenerate,
} from '../../server/generation.ts';
import { openDatabase } from '../../server/schema.ts';
import type { Db } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { floor, opened } from './helpers/entries.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const SESSION = 'a'.repeat(32);
let data: string;
let db: Db;

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-generation-'));
  db = openDatabase(data);
});
afterEach(() => {
  db.close();
  rmSync(data, { recursive: true });
});

/** Two stations' entries on disk, one commit each, a second apart. */
function written(): Fact[] {
  let ms = 1_000;
  const store = new Store(db, () => ms);
  const doc = new Y.Doc();
  const facts = [opened(), floor('f1'), floor('f2')];
  for (const [i, fact] of facts.entries()) {
    const before = Y.encodeStateVector(doc);
    const other = new Y.Doc();
    other.clientID = (i === 0 ? 3 : 5) * CLIENT_SPAN + i;
    Y.applyUpdate(other, Y.encodeStateAsUpdate(doc));
    other.getArray('facts').push([fact]);
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(other, before));
    const bytes = Y.encodeStateAsUpdate(doc, before);
    store.commit([{ session: SESSION, generation: 1, bytes, facts: [fact['id'] as string] }]);
    ms += 1_000;
  }
  return facts as unknown as Fact[];
}

describe('a new generation', () => {
  it('holds the facts in their order, under the server’s own number and no other', () => {
    const facts = written();
    const store = new Store(db, () => 9_000);
    db.transaction(() => regenerate(db, SESSION, 77)).immediate();
    const found = store.find(SESSION)!;
    expect(found).toMatchObject({ generation: 77, openedMs: 1_000, lastMs: 3_000, lastN: 3 });
    const updates = store.updates(found.id);
    expect(factsOf(updates, SESSION)).toEqual(facts);
    const clients = [...Y.decodeStateVector(Y.encodeStateVectorFromUpdate(updates[0]!)).keys()];
    expect(clients.map(stationOf)).toEqual([0]);
    expect([...store.factTimes(found.id)]).toEqual([
      ['f1', 2_000],
      ['f2', 3_000],
      ['opened', 1_000],
    ]);
    expect(greatestGeneration(db)).toBe(77);
  });

  it('leaves no older one behind, and takes what comes after it', () => {
    const facts = written();
    regenerate(db, SESSION, 2);
    regenerate(db, SESSION, 3, (all) => all.slice(0, 2));
    expect(db.prepare('SELECT generation FROM documents').pluck().all()).toEqual([3]);
    const store = new Store(db, () => 9_000);
    const doc = new Y.Doc();
    for (const bytes of store.updates(store.find(SESSION)!.id)) Y.applyUpdate(doc, bytes);
    const before = Y.encodeStateVector(doc);
    doc.getArray('facts').push([floor('f3')]);
    const bytes = Y.encodeStateAsUpdate(doc, before);
    store.commit([{ session: SESSION, generation: 3, bytes, facts: ['f3'] }]);
    expect(factsOf(store.updates(store.find(SESSION)!.id), SESSION).map(({ id }) => id)).toEqual([
      'opened',
      'f1',
      'f3',
    ]);
    expect(facts).toHaveLength(3);
  });

  it('never merges with a copy of the old one into fewer or other facts', () => {
    const facts = [opened(), floor('f1')] as unknown as Fact[];
    const [one, two] = [documentOf(facts, 5), documentOf(facts, 6)];
    expect(factsOf([one, two], SESSION)).toHaveLength(4);
  });

  it('is refused for a document that cannot be read, and nothing is changed', () => {
    written();
    db.prepare('DELETE FROM updates WHERE n = 1').run();
    expect(() => db.transaction(() => regenerate(db, SESSION, 9)).immediate()).toThrow(/whole document/);
    expect(db.prepare('SELECT generation FROM documents').pluck().all()).toEqual([1]);
  });
});

it('the client of a session stored by an older program is read from its opening', () => {
  written();
  expect(db.prepare('SELECT client FROM documents').pluck().all()).toEqual([null]);
  nameClients(db);
  expect(db.prepare('SELECT client FROM documents').pluck().all()).toEqual(['c1']);
});

describe('a server whose sessions begin at a later generation', () => {
  let running: Running;
  beforeEach(async () => {
    db.prepare("INSERT INTO meta (key, value) VALUES ('generation', '4711')").run();
    expect(baseGeneration(db)).toBe(4711);
    running = await run({ data });
  });
  afterEach(() => running.stop());

  it('names it to stations, opens new sessions there for the desk, and no other', async () => {
    const desk = await running.station(['desk']);
    const bench = await running.station(['bench']);
    expect(desk.me.generation).toBe(4711);
    const session = newSession();
    const room = `session/${session}/4711`;
    expect(await bench.request('GET', `/api/sessions/${session}/room`)).toEqual({
      room,
      known: false,
      erased: false,
    });
    const closeOf = async (name: string, cookie: string) =>
      (await (await new Wire(running.url, name, { cookie }).open()).isClosed()).code;
    expect(await closeOf(`session/${session}/1`, desk.cookie)).toBe(4404);
    expect(await closeOf(room, bench.cookie)).toBe(4404);
    const entered = await desk.enter(session);
    await entered.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c7', service: 'cuffs' });
    entered.close();
    expect(running.query('SELECT generation, client FROM documents')).toEqual([
      { generation: 4711, client: 'c7' },
    ]);
    expect(await bench.request('GET', `/api/sessions/${session}/room`)).toMatchObject({ room, known: true });
  });
});
