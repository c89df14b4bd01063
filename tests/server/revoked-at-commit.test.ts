/** A station revoked between the gate and the disk: what it sent is not committed, and nobody else loses anything. */
import { randomBytes, randomInt } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { CLOSE } from '../../core/index.ts';
import { gate } from '../../server/gate.ts';
import type { Gate } from '../../server/gate.ts';
import { Stations } from '../../server/pair.ts';
import { openDatabase } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { bareHub } from './helpers/bare-hub.ts';
import { any, craft, item } from './helpers/craft.ts';
import { clientOf, floor, opened } from './helpers/entries.ts';
import { newSession } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';

/** Called when the gate has let something in and nothing of it is on disk. */
type Between = (device: string) => void;

async function shop() {
  const data = mkdtempSync(join(tmpdir(), 'fibula-hub-'));
  const db = openDatabase(data);
  const store = new Store(db, () => Date.now());
  const stations = new Stations(db, { now: () => Date.now(), randomBytes, randomInt });
  const pair = (role: 'desk' | 'measuring') => {
    const paired = stations.pair({ code: stations.createCode([role])!.code, address: 'here' });
    if (!paired.ok) throw new Error(paired.why);
    return paired;
  };
  const people = { desk: pair('desk'), floor: pair('measuring') };
  const between: { is: Between } = { is: () => undefined };
  const watched: Gate = (bytes, view, writer) => {
    const verdict = gate(bytes, view, writer);
    if (verdict.do === 'take') between.is(writer.device);
    return verdict;
  };
  onTestFinished(() => rmSync(data, { recursive: true }));
  const { hub, url } = await bareHub({
    data,
    db,
    store,
    gate: watched,
    isCurrent: (station) => stations.isCurrent(station),
    stationOf: (request) => stations.authenticate(request.headers.cookie),
  });
  const session = newSession();
  const connect = (token: string) =>
    new Wire(url, `session/${session}/1`, {
      cookie: token,
    }).open();
  const stored = () => db.prepare('SELECT id FROM facts ORDER BY id').pluck().all();
  return { hub, stations, people, between, connect, stored };
}

it.each([
  ['revoked', 'its token has ended'],
  ['regranted', 'it may no longer write that'],
  ['paired anew', 'it is another pairing'],
])('an entry of a station %s before the commit is not stored, since %s', async (how) => {
  const { hub, stations, people, between, connect, stored } = await shop();
  const { number, device } = people.floor.station;
  const [deskClient, floorClient] = [clientOf(people.desk.station.number), clientOf(number)];
  const desk = await connect(people.desk.token);
  desk.sendUpdate(
    craft({
      sections: [
        {
          client: deskClient,
          clock: 0,
          structs: [item(any(opened('opened', people.desk.station.device)))],
        },
      ],
    }),
  );
  await desk.hears('durable', ({ clocks }) => clocks.get(deskClient) === 1);
  const from = await connect(people.floor.token);
  between.is = (writer) => {
    if (writer !== device) return;
    between.is = () => undefined;
    if (how === 'revoked') stations.revoke(number);
    else if (how === 'regranted') stations.regrant(number, ['bench']);
    else stations.pair({ code: stations.createCode(['measuring'])!.code, device, address: 'here' });
    hub.disconnect(number, CLOSE.unpaired, 'This station was revoked at the desk.');
  };
  const behind = { client: deskClient, clock: 0 };
  const note = (client: number, clock: number, fact: object) =>
    craft({ sections: [{ client, clock, structs: [item(any(fact), { origin: behind })] }] });
  from.sendUpdate(note(floorClient, 0, floor('late', device)));
  expect((await from.isClosed()).code).toBe(CLOSE.unpaired);

  // The others are sent away to come back, and have what is on disk.
  expect((await desk.isClosed()).code).toBe(CLOSE.again);
  expect(desk.heard.some((heard) => heard.is === 'update')).toBe(false);
  expect(stored()).toEqual(['opened']);
  const back = await connect(people.desk.token);
  expect(idsOf(await back.document())).toEqual(['opened']);
  const mine = { kind: 'home.checked', note: 'sits well', id: 'mine', at: '2026-01-09T09:12:00+01:00' };
  const by = { role: 'desk', station: people.desk.station.device };
  back.sendUpdate(note(deskClient, 1, { ...mine, by }));
  await back.hears('durable', ({ clocks }) => clocks.get(deskClient) === 2);
  expect(stored()).toEqual(['mine', 'opened']);
});
