/** The storm of kills, in short; and that its checks would see a disk that holds less, more, or other than it should. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type Database from 'better-sqlite3';
import * as Y from 'yjs';
import { CLIENT_SPAN } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { randomFrom } from '../../demo/random.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';
import { allBreaks, checkDisk, Ledger, noBreaks } from './check.ts';
import { diskAfterDeath } from './disk.ts';
import { Drafts } from './drafts.ts';
import { killStorm } from './kills.ts';
import { becomeBrowser } from './page.ts';
import { Tablet } from './tablet.ts';
import { Witness } from './witness.ts';

const SEED = Number(process.env['FIBULA_SEED'] ?? 20260109);

describe('kills', () => {
  it(`ten of them in the bursts of twelve stations lose nothing and double nothing (seed ${SEED})`, async () => {
    const report = await killStorm({ seed: SEED, kills: 10 });
    expect(report.breaks).toEqual([]);
    expect(report).toMatchObject({ kills: 10, lost: 0, twice: 0 });
    expect(report.acknowledged).toBeGreaterThan(200);
    expect(report.acknowledged).toBe(report.entered);
    expect(report.reloads).toBeGreaterThan(0);
    expect(report.outages).toBeGreaterThan(0);
  }, 400_000);
});

describe('the checks of the storm', () => {
  const session = 'a'.repeat(32);
  const witness = new Witness();
  const ledger = new Ledger();
  let shop: TestServer;
  let desk: Tablet;

  beforeAll(async () => {
    becomeBrowser();
    shop = await serve();
    desk = await Tablet.pair({
      url: shop.url,
      code: shop.code(['desk']),
      role: 'desk',
      name: 'the desk',
      random: randomFrom(SEED),
      drafts: new Drafts(SEED),
      witness,
    });
    desk.begin(session);
    await until(() => desk.saved(session).length === 1, 'the session to be open');
    for (let i = 0; i < 9; i++) desk.enter();
    await until(() => desk.saved(session).length === 10, 'ten facts to be saved');
    desk.enter(); // in a row of its own
    await until(() => desk.saved(session).length === 11, 'the last one to be saved');
    ledger.note(desk);
    shop.server.process.kill('SIGKILL');
    await until(() => shop.server.process.signalCode === 'SIGKILL', 'the server to be dead');
  });
  afterAll(async () => {
    desk.close();
    await shop.close();
  });

  const breaksOf = (tamper?: (db: Database.Database) => void) => {
    const breaks = noBreaks();
    checkDisk(diskAfterDeath(shop.data, undefined, tamper), [session], witness, ledger, breaks);
    return breaks;
  };

  it('find nothing on an honest disk', () => {
    expect(allBreaks(breaksOf())).toEqual([]);
  });

  it('find a fact that is gone, by what the station showed and by what the server had called durable', () => {
    const { lost } = breaksOf((db) => {
      const [id] = [...ledger.saved.get(session)!.keys()].slice(-1);
      db.prepare('DELETE FROM facts WHERE id = ?').run(id);
      db.exec('DELETE FROM updates WHERE n = (SELECT max(n) FROM updates)');
    });
    expect(lost).toHaveLength(2);
  });

  it('find a fact that is there twice', () => {
    const { twice } = breaksOf((db) => {
      const doc = new Y.Doc();
      doc.clientID = 9 * CLIENT_SPAN + 1;
      for (const row of db.prepare('SELECT bytes FROM updates ORDER BY n').pluck().all() as Buffer[])
        Y.applyUpdate(doc, row);
      const before = Y.encodeStateVector(doc);
      const facts = doc.getArray<Fact>('facts');
      facts.push([facts.get(3)]);
      db.prepare(
        'INSERT INTO updates SELECT document, n + 1, 0, ?, NULL FROM updates ORDER BY n DESC LIMIT 1',
      ).run(Y.encodeStateAsUpdate(doc, before));
    });
    expect(twice).toHaveLength(1);
  });

  it('find a fact that a station was shown and the disk does not hold', () => {
    witness.sessions.get(session)!.shown.add('nowhere');
    expect(breaksOf().shownOnly).toEqual([`${session} nowhere`]);
    witness.sessions.get(session)!.shown.delete('nowhere');
  });

  it('find a session that is gone as a whole', () => {
    expect(
      breaksOf((db) => db.exec('DELETE FROM facts; DELETE FROM updates; DELETE FROM documents')).lost.length,
    ).toBeGreaterThan(11);
  });
});
