/** When lessons are taken, against a clock that the test turns and a real database. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import * as Y from 'yjs';
import { freeBytes, writeProbe } from '../../server/disk.ts';
import { factsOf } from '../../server/document.ts';
import { Health } from '../../server/health.ts';
import { Lessons } from '../../server/lessons.ts';
import { openDatabase } from '../../server/schema.ts';
import type { Db } from '../../server/schema.ts';
import { School } from '../../server/school.ts';
import { Store } from '../../server/store.ts';
import { Turns } from '../../server/turns.ts';
import { floor, opened } from './helpers/entries.ts';

const [ARCHIVED, WORKED_ON] = ['a'.repeat(32), 'b'.repeat(32)];
const log = pino({ level: 'silent' });
let data: string;
let db: Db;
let store: Store;
let health: Health;
let school: School;
let taken: string[];

beforeEach(() => {
  vi.useFakeTimers({
    toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval', 'Date', 'performance'],
  });
  data = mkdtempSync(join(tmpdir(), 'fibula-school-'));
  db = openDatabase(data);
  store = new Store(db, () => Date.now());
  const probe = (bytes: number) => writeProbe(db, bytes);
  health = new Health({ log, probe, freeBytes: () => freeBytes(data), lowSpaceBytes: 0 });
  taken = [];
  const lessons = new Lessons(db, () => Date.now());
  const turns = new Turns(db, (document) => store.factTimes(document));
  school = new School(lessons, turns, {
    log,
    health,
    read: (session) => {
      taken.push(session);
      const document = store.find(session);
      return document && { document, facts: factsOf(store.updates(document.id), session) };
    },
    together: (writes) => db.transaction(writes).immediate(),
  });
});
afterEach(() => {
  school.stop();
  health.stop();
  db.close();
  rmSync(data, { recursive: true });
  vi.useRealTimers();
});

/** What commits one entry after the other to a session, the first of which opens it. */
function writer(session: string): () => void {
  const doc = new Y.Doc();
  const list = doc.getArray('facts');
  return () => {
    const id = `f${list.length}`;
    const before = Y.encodeStateVector(doc);
    list.push([list.length === 0 ? opened(id) : floor(id)]);
    store.commit([{ session, generation: 1, bytes: Y.encodeStateAsUpdate(doc, before), facts: [id] }]);
  };
}

it('reads the archive once, and what is being worked on when it rests, not at each look', () => {
  writer(ARCHIVED)();
  const work = writer(WORKED_ON);
  school.begin();
  for (let s = 0; s < 20; s++) {
    work();
    school.learn(WORKED_ON); // the board tells of each change
    vi.advanceTimersByTime(1_000);
  }
  expect(taken).toEqual([ARCHIVED]);
  vi.advanceTimersByTime(4_000);
  expect(taken).toEqual([ARCHIVED, WORKED_ON]);
  vi.advanceTimersByTime(1_300_000); // the next looks find nothing new
  expect(taken).toEqual([ARCHIVED, WORKED_ON]);
});
