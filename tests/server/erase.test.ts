/** Erasing a client's personal data: gone from every byte, the record still there, and not to be brought back. */
import { appendFileSync, copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { randomInt } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { plan, withoutPersonal } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { DEFAULT_KEEPING } from '../../server/keeper.ts';
import { hashOf, Ledger, ledgerPath } from '../../server/ledger.ts';
import { restore } from '../../server/restore.ts';
import { roomOf, send } from './helpers/again.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const SECRETS = ['Quintilia', 'Fabelhaft', 'quintilia@example.org', 'walks the dog', 'bunion like her aunt'];
const DAY_MS = 24 * 3_600_000;
let running: Running;
let desk: Station;

beforeEach(async () => {
  running = await run({ keeping: { ...DEFAULT_KEEPING, backupAt: '00:00' } });
  desk = await running.station(['desk', 'measuring', 'bench']);
});
afterEach(() => running.close());

/** Which of the secrets are in the files of the data directory, byte for byte. */
const found = (data: string): string[] =>
  ['fibula.db', 'fibula.db-wal', 'fibula.db-shm', 'ledger.jsonl']
    .map((name) => join(data, name))
    .filter((path) => existsSync(path))
    .flatMap((path) => {
      const bytes = readFileSync(path);
      return SECRETS.filter((secret) => bytes.includes(secret)).map((secret) => `${secret} in ${path}`);
    });

const exported = async (session: string): Promise<Fact[]> =>
  (await desk.request<{ facts: Fact[] }>('GET', `/api/sessions/${session}/export`)).facts;

/** A client with one session that says things about them; a note is taken back, and still in the log. */
async function takeIn(ref: string, name = 'Quintilia Fabelhaft'): Promise<string> {
  await desk.request('PUT', `/api/people/${ref}`, { name, contact: 'quintilia@example.org' });
  const session = newSession();
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', {
    ticket: '1-1',
    clientRef: ref,
    service: 'cuffs',
    notes: 'walks the dog',
  });
  await room.add('measuring', 'ready.checked', {
    side: 'left',
    item: 'footbed',
    outcome: 'done',
    note: 'bunion like her aunt',
  });
  const noted = await room.add('desk', 'home.checked', { note: 'walks the dog in them' });
  await room.add('desk', 'struck', { fact: noted, reason: 'Quintilia rang again' });
  room.close();
  return session;
}

const close = async (session: string): Promise<void> => {
  const room = await desk.enter(session);
  await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
  room.close();
};

describe('an erasure', () => {
  it('leaves nothing in the files, and the technical record as it was', async () => {
    const session = await takeIn('c1');
    const other = await takeIn('c2', 'Somebody Else');
    const before = await exported(session);
    const others = await exported(other);
    expect(found(running.data)).not.toEqual([]);
    const open = await new Wire(running.url, (await roomOf(desk, session)).room, {
      cookie: desk.cookie,
    }).open();
    await open.document();

    expect(await running.server.keeper.erase('c1', false)).toMatchObject({ sessions: 1 });
    expect(await open.isClosed()).toMatchObject({
      code: 4404,
      reason: expect.stringMatching(/erased/) as string,
    });
    const after = await exported(session);
    expect(after).toEqual(withoutPersonal(before));
    expect(after.map(({ id }) => id)).toEqual(before.map(({ id }) => id));
    expect(plan(after).sides).toEqual(plan(before).sides);
    expect(plan(after).steps).toEqual(plan(before).steps);
    expect(await exported(other)).toEqual(others);
    await expect(desk.request('GET', '/api/people/c1')).rejects.toThrow(/404/);
    expect(running.query('SELECT ref FROM people')).toEqual([{ ref: 'c2' }]);
    // The other client says the same of herself; what is left is hers.
    await running.server.keeper.erase('c2', false);
    expect(found(running.data)).toEqual([]);
    expect(JSON.stringify(running.log)).not.toMatch(/Quintilia|\bc1\b/);
  });

  it('gives the session another room, which takes no note and knows the old entries again', async () => {
    const session = await takeIn('c1');
    const before = await exported(session);
    await running.server.keeper.erase('c1', false);
    expect(await roomOf(desk, session)).toEqual({ room: `session/${session}/2`, known: true, erased: true });
    const offered = await send(desk, session, before);
    expect(offered).toEqual({ is: 'already', ids: before.map(({ id }) => id) });
    const late = {
      id: 'late',
      kind: 'home.checked',
      at: '2026-01-09T09:12:00+01:00',
      by: { role: 'desk', station: desk.me.device },
      note: 'Quintilia is back',
    } as Fact;
    expect(await send(desk, session, [late])).toMatchObject({
      is: 'refused',
      refused: { code: 'erased', field: 'note', fact: 'late' },
    });
    expect(await send(desk, session, withoutPersonal([late]))).toMatchObject({ is: 'durable' });
    expect((await exported(session)).at(-1)).toMatchObject({ id: 'late', note: 'erased late' });
    const bench = await running.station(['bench']);
    await until404(bench, session);
  });

  it('of nobody is said to be of nobody, and writes nothing down', async () => {
    expect(await running.server.keeper.erase('nobody', false)).toBeNull();
    expect(existsSync(ledgerPath(running.data))).toBe(false);
  });

  it('that was written down and cut short is done at the next start', async () => {
    const session = await takeIn('c1');
    await running.stop();
    const ledger = new Ledger(running.data, () => 1);
    ledger.append({ do: 'erase', client: hashOf('c1'), sessions: [session] });
    ledger.close();
    // The end of a line that power was lost in.
    appendFileSync(ledgerPath(running.data), '{"n":2,"atMs":1,"do":"er');
    expect(found(running.data)).not.toEqual([]);
    running = await run({ data: running.data });
    expect(found(running.data)).toEqual([]);
    desk = await running.station(['desk']);
    expect(await roomOf(desk, session)).toMatchObject({ erased: true });
    await desk.request('PUT', '/api/people/c3', { name: 'Nobody Came' });
    await running.server.keeper.erase('c3', false);
    const lines = readFileSync(ledgerPath(running.data), 'utf8').trim().split('\n');
    expect(lines.map((line) => (JSON.parse(line) as { n: number }).n)).toEqual([1, 2]);
  });
});

/** A bench that still asks for the old generation is sent away. */
async function until404(bench: Station, session: string): Promise<void> {
  const wire = await new Wire(running.url, `session/${session}/1`, { cookie: bench.cookie }).open();
  expect((await wire.isClosed()).code).toBe(4404);
}

describe('a ledger that cannot be read', () => {
  it('stops the start, and says which line it is', async () => {
    await running.stop();
    appendFileSync(ledgerPath(running.data), 'scribble\n');
    await expect(run({ data: running.data })).rejects.toThrow(/ledger\.jsonl, line 1, cannot be read/);
    rmSync(ledgerPath(running.data));
    running = await run({ data: running.data });
  });
});

describe('an older backup', () => {
  it('brings back neither what was erased since nor a token that has ended, not even on another machine', async () => {
    const session = await takeIn('c1');
    const lost = await running.station(['measuring']);
    const file = join(running.data, 'copy.db');
    await running.server.keeper.backup(file);
    expect(readFileSync(file).includes('Quintilia')).toBe(true);
    await running.server.keeper.erase('c1', false);
    const later = await takeIn('c1'); // opened after the backup, for a client who came back
    await running.server.keeper.erase('c1', false);
    // Paired anew in the same browser: the older token ends.
    const { code } = running.server.stations.createCode(['measuring'])!;
    await fetch(`${running.url}/api/pair`, {
      method: 'POST',
      headers: { origin: running.url, 'content-type': 'application/json' },
      body: JSON.stringify({ code, device: lost.me.device }),
    });
    await expect(lost.request('GET', '/api/me')).rejects.toThrow(/401/);
    await running.stop();

    const elsewhere = mkdtempSync(join(tmpdir(), 'fibula-elsewhere-'));
    copyFileSync(ledgerPath(running.data), ledgerPath(elsewhere));
    const { generation } = restore(file, elsewhere, false, {
      now: () => Date.now(),
      randomBytes: () => new Uint8Array(),
      randomInt,
    });
    expect(found(elsewhere)).toEqual([]);
    const other = await run({ data: elsewhere });
    try {
      const again = await other.station(['desk']);
      expect(await roomOf(again, session)).toMatchObject({ known: true, erased: true });
      expect(await roomOf(again, later)).toEqual({
        room: `session/${later}/${generation}`,
        known: false,
        erased: true,
      });
      const answer = await fetch(`${other.url}/api/me`, { headers: { cookie: lost.cookie } });
      expect(answer.status).toBe(401);
    } finally {
      await other.close();
    }
  });

  it('among the daily ones is rewritten when that is asked for', async () => {
    await takeIn('c1');
    await running.server.keeper.check();
    const [backup] = backupsOf(running.data);
    expect(readFileSync(backup!).includes('Quintilia')).toBe(true);
    expect(await running.server.keeper.erase('c1', true)).toEqual({
      sessions: 1,
      rewritten: [backup],
      failed: [],
    });
    for (const secret of SECRETS) expect(readFileSync(backup!).includes(secret)).toBe(false);
    expect(backupsOf(running.data)).toEqual([backup]);
  });
});

const backupsOf = (data: string): string[] => {
  const day = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/Vienna' }).format(Date.now());
  return [join(data, 'backups', `fibula-${day}.db`)].filter((path) => existsSync(path));
};

describe('retention', () => {
  it('erases what is closed for longer than was asked, and nothing else', async () => {
    await running.close();
    running = await run({ keeping: { ...DEFAULT_KEEPING, backupAt: null, keepDays: 30 } });
    desk = await running.station(['desk', 'measuring', 'bench']);
    const done = await takeIn('c1');
    await close(done);
    const open = await takeIn('c2');
    await desk.request('PUT', '/api/people/c3', { name: 'Nobody Came' });
    const kept = () => running.query('SELECT ref FROM people ORDER BY ref').map(({ ref }) => ref);
    await running.stop(); // boards write down on the way out which jobs are closed
    running = await run({
      data: running.data,
      keeping: { ...DEFAULT_KEEPING, backupAt: null, keepDays: 30 },
    });
    desk = await running.station(['desk', 'measuring', 'bench']);
    running.clock.aheadMs = 29 * DAY_MS;
    await running.server.keeper.check();
    expect(kept()).toEqual(['c1', 'c2', 'c3']);
    running.clock.aheadMs = 31 * DAY_MS;
    await running.server.keeper.check();
    expect(kept()).toEqual(['c2']);
    expect(await roomOf(desk, done)).toMatchObject({ erased: true });
    expect(await roomOf(desk, open)).toMatchObject({ erased: false });
    const lines = () => readFileSync(ledgerPath(running.data), 'utf8').trim().split('\n').length;
    const before = lines();
    await running.server.keeper.check();
    expect(lines()).toBe(before);
  });

  it('keeps for ever when that was asked', async () => {
    await running.close();
    running = await run({ keeping: { ...DEFAULT_KEEPING, backupAt: null, keepDays: null } });
    desk = await running.station(['desk']);
    await desk.request('PUT', '/api/people/c3', { name: 'Nobody Came' });
    running.clock.aheadMs = 40_000 * DAY_MS;
    await running.server.keeper.check();
    expect(running.query('SELECT ref FROM people')).toEqual([{ ref: 'c3' }]);
  });
});

describe('an export', () => {
  it('is all that is kept of one client, for the desk', async () => {
    const [one, two] = [await takeIn('c1'), await takeIn('c1')];
    await takeIn('c2');
    const file = await desk.request<{ sessions: { session: string; facts: Fact[] }[] }>(
      'GET',
      '/api/people/c1/export',
    );
    expect(file).toMatchObject({
      format: 'fibula-client/1',
      ref: 'c1',
      person: { name: 'Quintilia Fabelhaft', contact: 'quintilia@example.org', language: '' },
    });
    expect(file.sessions.map(({ session }) => session)).toEqual([one, two]);
    expect(file.sessions[0]!.facts).toEqual(await exported(one));
    await expect(desk.request('GET', '/api/people/nobody/export')).rejects.toThrow(/404/);
    const bench = await running.station(['bench']);
    await expect(bench.request('GET', '/api/people/c1/export')).rejects.toThrow(/403/);
  });
});
