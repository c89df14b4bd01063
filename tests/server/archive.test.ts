/** The archive: a season's sessions found by what people remember of them, and none of it in the memory of the server. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Found, JobRow } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { BOUND } from '../../server/limits.ts';
import { dayWords, fold, soughtIn, wordsOf } from '../../server/words.ts';
import { writeSeason } from '../helpers/season.ts';
import type { Season } from '../helpers/season.ts';
import { until } from '../helpers/until.ts';
import { asker } from './helpers/asks.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const SESSIONS = 300;
let data: string;
let season: Season;
let running: Running;
let desk: Station;

beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-season-'));
  season = writeSeason(data, SESSIONS);
  running = await run({ data });
  desk = await running.station(['desk', 'measuring', 'bench']);
});
afterAll(async () => {
  await running?.stop();
  rmSync(data, { recursive: true, force: true });
});

const find = (q: string, standing = 'all', who = desk) =>
  who.request<Found>('GET', `/api/archive?standing=${standing}&q=${encodeURIComponent(q)}`);
const tickets = (sessions: readonly { ticket: string }[]) => sessions.map(({ ticket }) => ticket);
/** What must come: newest first, as many as one answer holds. */
const expected = (fits: (told: Season[number]) => boolean) => {
  const all = season.filter(fits).toReversed();
  return { found: tickets(all.slice(0, BOUND.found)), more: Math.max(0, all.length - BOUND.found) };
};
const told = ({ found, more }: Found) => ({ found: tickets(found), more });
const begins = (text: string, begin: string) => wordsOf(text).some((word) => word.startsWith(begin));

describe('words', () => {
  it.each([
    ['Müller', 'muller'],
    ['Mueller', 'muller'],
    ['MULLER', 'muller'],
    ['Großglück', 'grossgluck'],
    ['Søren', 'soren'],
    ['Łucja', 'lucja'],
    ['Æ', 'a'],
    ['E\u0301clair', 'eclair'],
  ])('%s is spelt %s', (written, folded) => expect(fold(written)).toBe(folded));

  it('each beginning of a word that is typed is a beginning of the word', () => {
    for (const name of ['Mueller', 'Müller', 'Samuel', 'Änne', 'Aenne', 'Großglück', 'Quendolina', 'Joël'])
      for (let i = 1; i <= name.length; i++)
        expect(fold(name).startsWith(fold(name.slice(0, i))), name.slice(0, i)).toBe(true);
  });

  it('keep a ticket together, and take a double name apart', () => {
    expect(wordsOf('1-41 Anna-Lena O’Grat')).toEqual(['1-41', 'anna', 'lena', 'o', 'grat']);
  });

  it.each([
    ['9.1.', '@--01-09'],
    ['9.1.2026', '@2026-01-09'],
    ['09.01.26', '@2026-01-09'],
    ['9.1.20', '@--01-09'],
    ['1.2026', '@2026-01-'],
    ['2026-01-09', '@2026-01-09'],
    ['2026', '@2026'],
    ['120', null],
    ['1-41', null],
  ])('%s is the day %s', (typed, day) => expect(soughtIn(typed)[0]!.day).toBe(day));

  it('of a day cannot be typed as a word', () => {
    for (const word of dayWords('2026-01-09')) expect(wordsOf(word)).not.toContain(word);
  });
});

describe('a session is found', () => {
  it('by its ticket, and by the last part of it', async () => {
    expect((await find('1-123')).found[0]).toMatchObject({ ticket: '1-123', session: season[122]!.session });
    expect(told(await find('1-12'))).toEqual(expected(({ ticket }) => ticket.startsWith('1-12')));
    expect(tickets((await find('123')).found)).toContain('1-123');
  });

  it('by each beginning of a name, with or without its umlaut', async () => {
    for (const typed of ['j', 'jür', 'Juer', 'JURGEN', 'müll', 'huben', 'hueb', 'großg', 'grossgl'])
      expect(told(await find(typed)), typed).toEqual(
        expected(({ name, model, tag, ticket }) => begins(`${name} ${model} ${tag} ${ticket}`, fold(typed))),
      );
  });

  it('by several words, each of something else', async () => {
    const one = season.find(({ name, closed }) => name.startsWith('Jürgen') && closed)!;
    const [, boot, stiffness] = [one, ...one.model.split(' ')] as [unknown, string, string];
    const answer = await find(`${boot.slice(0, 3)} juer ${stiffness}`);
    expect(told(answer)).toEqual(
      expected(({ name, model }) => name.startsWith('Jürgen') && model.startsWith(boot)),
    );
    expect((await find(`${one.ticket} nobody`)).found).toEqual([]);
  });

  it('by the tag of a boot, as it is scanned', async () => {
    const { ticket, tag } = season[77]!;
    expect(told(await find(`${tag}-L`))).toEqual({ found: [ticket], more: 0 });
    expect((await find(tag)).found[0]).toMatchObject({ tags: [`${tag}-L`, `${tag}-R`] });
  });

  it('by its day, as it is written here and elsewhere', async () => {
    const { day } = season[150]!;
    const [year, month, date] = day.split('-') as [string, string, string];
    for (const typed of [day, `${Number(date)}.${Number(month)}.${year}`, `${date}.${month}.`])
      expect(told(await find(typed)), typed).toEqual(expected((each) => each.day === day));
    expect(told(await find(`${Number(month)}.${year}`))).toEqual(
      expected((each) => each.day.startsWith(`${year}-${month}`)),
    );
  });

  it('finished or open, the newest first, with how many more there are', async () => {
    expect(told(await find(''))).toEqual(expected(() => true));
    expect(told(await find('', 'open'))).toEqual(expected(({ closed }) => !closed));
    expect(told(await find('', 'finished'))).toEqual(expected(({ closed }) => closed));
    expect(told(await find('grat', 'finished'))).toEqual(
      expected(({ model, closed }) => closed && model.startsWith('Grat')),
    );
    expect((await find('grat', 'open')).found.every(({ closed }) => !closed)).toBe(true);
  });

  it('with all that its skier had done before', async () => {
    const { ref } = season.findLast((one, i) => season.findIndex((each) => each.ref === one.ref) < i)!;
    const history = await desk.request<Found>('GET', `/api/people/${ref}/sessions`);
    expect(told(history)).toEqual(expected((each) => each.ref === ref));
    expect(history.found.length).toBeGreaterThan(1);
  });

  it('by what is typed and cannot be found, never', async () => {
    for (const typed of ['%', '_', "' OR 1=1", '"', '*', '@2026', '\u{10FFFF}', 'x'.repeat(5_000)])
      expect((await find(typed)).found.length, typed).toBeLessThanOrEqual(BOUND.found);
    expect((await find('zzz')).found).toEqual([]);
  });

  it('by the desk alone', async () => {
    const ask = asker(() => running.url);
    const floor = await running.station(['measuring', 'bench']);
    for (const path of ['/api/archive?q=a', `/api/people/${season[0]!.ref}/sessions`]) {
      expect((await ask('GET', path, floor.cookie)).status).toBe(403);
      expect((await ask('GET', path)).status).toBe(401);
    }
    expect((await ask('GET', '/api/archive?standing=lost', desk.cookie)).body.error.code).toBe('shape');
  });
});

it('a job is found as soon as its row is written, and again as finished when it is', async () => {
  const session = newSession();
  await desk.request('PUT', '/api/people/late', { name: 'Dörthe Spätkommerin' });
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '9-1', clientRef: 'late', service: 'cuffs' });
  const found = async (standing: string) => tickets((await find('doerthe', standing)).found).join();
  await until(async () => (await found('open')) === '9-1', 'the job to be found');
  await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
  await until(async () => (await found('finished')) === '9-1', 'the job to be found finished');
  // Whoever writes into a finished job makes it one that the next start looks at, until its row is written.
  await room.add('desk', 'home.checked', { note: 'fits' });
  expect(running.query('SELECT closed FROM documents WHERE session = ?', session)).toEqual([{ closed: 0 }]);
  room.close();
});

it('an erased name is in no index, and its sessions are found by all else', async () => {
  const one = season.findLast(({ name, closed }) => name.includes('Ölmoos') && closed)!;
  const theirs = season.filter(({ ref }) => ref === one.ref);
  const word = `qq${one.ref}`;
  await desk.request('PUT', `/api/people/${one.ref}`, {
    name: `Ölmoos ${word}`,
    contact: `${word}@mail.example`,
  });
  expect(tickets((await find(word)).found)).toEqual(tickets(theirs.toReversed()));
  expect(readFileSync(join(data, 'fibula.db-wal')).includes(word)).toBe(true);
  await running.server.keeper.erase(one.ref, false);
  expect(await find(word)).toMatchObject({ found: [], more: 0 });
  expect(running.query('SELECT * FROM people_words WHERE ref = ?', one.ref)).toEqual([]);
  for (const file of ['fibula.db', 'fibula.db-wal'])
    expect(readFileSync(join(data, file)).includes(word), file).toBe(false);
  expect((await find(one.tag)).found[0]).toMatchObject({
    ticket: one.ticket,
    name: null,
    models: [one.model],
  });
});

async function board(server: Running, station: Station): Promise<JobRow[]> {
  const wire = await new Wire(server.url, `board/desk/${station.me.boot}`, { cookie: station.cookie }).open();
  const rows = (await wire.document()).getMap<JobRow>('jobs').toJSON();
  wire.close();
  return Object.values(rows) as JobRow[];
}

it('the board holds the open jobs and the latest finished, however many were', async () => {
  const open = season.filter(({ closed }) => !closed);
  const before = (await board(running, desk)).filter(({ closed }) => !closed);
  expect(tickets(before).sort()).toEqual(tickets(open).sort());
  // Opened and finished in one go: more than stay on it.
  const all = Array.from({ length: BOUND.closedOnBoard + 5 }, (_, i) => `8-${i}`);
  for (const ticket of all) {
    const room = await desk.enter(newSession());
    await room.add('desk', 'session.opened', { ticket, clientRef: 'many', service: 'cuffs' });
    await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
    room.close();
  }
  await until(async () => {
    const shown = await board(running, desk);
    const closed = shown.filter((job) => job.closed);
    const isOver = closed.length === BOUND.closedOnBoard && shown.length - closed.length === open.length;
    return isOver && closed.some(({ ticket }) => ticket === all.at(-1));
  }, 'the older finished jobs to leave the board');
  await until(
    async () => (await find('8-0')).found.some(({ closed }) => closed),
    'the first to be in the archive',
  );
});

it('a database of an older program is read for it while the server works', async () => {
  const older = mkdtempSync(join(tmpdir(), 'fibula-older-'));
  const few = writeSeason(older, 12, 7);
  const db = new Database(join(older, 'fibula.db'));
  db.exec('UPDATE documents SET shown = NULL; DELETE FROM session_words; DELETE FROM people_words');
  db.close();
  const server = await run({ data: older });
  try {
    const station = await server.station(['desk']);
    const all = async () => find('', 'all', station);
    await until(async () => (await all()).unread === 0, 'all sessions to be read');
    expect(tickets((await all()).found)).toEqual(tickets(few.toReversed()));
    const { name, ticket, model } = few[3]!;
    expect(tickets((await find(`${name} ${model} ${ticket}`, 'all', station)).found)).toEqual([ticket]);
  } finally {
    await server.close();
  }
});
