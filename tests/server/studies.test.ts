/** The shop's repeatability studies over HTTP: who may, what stays, and the setting that one sets. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Station } from '../../demo/station.ts';
import { asker } from './helpers/asks.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

let running: Running;
let desk: Station;
let measuring: Station;
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  measuring = await running.station(['measuring']);
});
afterEach(() => running.close());

const ask = asker(() => running.url);
const STUDY = {
  of: 'knee',
  seed: 41,
  technicians: ['WB'],
  subjects: 3,
  repeats: 2,
  startedAt: '2026-01-09T09:12:00+01:00',
};
/** Six turns; two readings of each subject differ by 2, 4 and 6 in some order. */
const whole = (by = 1) => ({ ...STUDY, readings: [10, 20, 30, 10, 20, 30].map((mm, i) => [mm + by * i]) });
const put = (study: object, cookie = measuring.cookie, id = 'a1') =>
  ask('PUT', `/api/studies/${id}`, cookie, study);
const use = (cookie = desk.cookie) => ask('POST', '/api/corner/studies/a1/use', cookie, {});
const openCorner = () => ask('POST', '/api/corner/pin', desk.cookie, { pin: '271828', again: '271828' });

it('are taken at the measuring station, turn by turn, and seen at the desk', async () => {
  expect((await put({ ...STUDY, readings: [] })).status).toBe(200);
  expect((await put({ ...STUDY, readings: [[8]] })).status).toBe(200);
  const [kept] = (await ask('GET', '/api/studies', desk.cookie)).body.studies;
  expect(kept).toEqual({ id: 'a1', study: { ...STUDY, readings: [[8]] }, used: null });
  // The last one was mistyped.
  expect((await put({ ...STUDY, readings: [] })).status).toBe(200);
  expect((await put({ ...STUDY, readings: [] }, desk.cookie)).body.error.code).toBe('forbidden');
  expect((await put({ ...STUDY, readings: [[900]] })).body.error).toMatchObject({ code: 'shape' });
  expect((await put({ ...STUDY, readings: [] }, measuring.cookie, 'a b')).body.error.code).toBe('shape');
  const bench = await running.station(['bench']);
  expect((await ask('GET', '/api/studies', bench.cookie)).body.error.code).toBe('forbidden');
});

it('stay as they are once they are finished, and are given out as a table', async () => {
  expect((await put(whole())).status).toBe(200);
  expect((await put(whole())).status).toBe(200);
  expect((await put(whole(2))).body.error.code).toBe('changed');
  expect((await put({ ...STUDY, readings: [] })).body.error.code).toBe('changed');
  const file = await fetch(`${running.url}/api/studies/a1/table`, { headers: { cookie: desk.cookie } });
  const lines = (await file.text()).trim().split('\n');
  expect(lines).toHaveLength(7);
  expect(lines[0]).toContain('turn,technician,subject,repeat,offset mm');
  expect(lines[1]).toMatch(/^1,WB,[123],1,10$/);
  expect((await ask('GET', '/api/studies/zz/table', desk.cookie)).status).toBe(404);
});

it('[STU-4] set the shop’s error in the open corner only, and say from what, where and when', async () => {
  await openCorner();
  await put({ ...STUDY, readings: [[8]] });
  expect((await use()).body.error.code).toBe('changed');
  await put(whole());
  expect((await use(measuring.cookie)).body.error.code).toBe('forbidden');
  await ask('POST', '/api/corner/lock', desk.cookie, {});
  expect((await use()).body.error.code).toBe('locked');
  expect((await ask('GET', '/api/settings', desk.cookie)).body.values).toEqual({});
  await ask('POST', '/api/corner/unlock', desk.cookie, { pin: '271828' });
  const { used } = (await use()).body;
  const { values } = (await ask('GET', '/api/settings', desk.cookie)).body;
  expect(values).toEqual({ kneeErrorMm: used.is });
  expect(used).toMatchObject({ setting: 'kneeErrorMm', was: null, standard: 5, by: desk.me.name });
  expect(used.atMs).toBeGreaterThan(0);
  const { entered } = (await ask('GET', '/api/settings/entered', desk.cookie)).body;
  expect(entered).toEqual({ kneeErrorMm: { by: desk.me.name, atMs: expect.any(Number), was: null } });
});

it('[STU-4] are not taken for a figure that no reading can have', async () => {
  await openCorner();
  await put({ ...STUDY, readings: [10, 20, 30, 10, 20, 30].map(() => [10]) });
  expect((await use()).body.error).toMatchObject({ code: 'shape' });
  expect((await ask('GET', '/api/settings', desk.cookie)).body.values).toEqual({});
});

it('who changed a setting is noted, for those that changed alone', async () => {
  await openCorner();
  const set = (values: object) => ask('PUT', '/api/corner/settings', desk.cookie, values);
  const entered = async () => (await ask('GET', '/api/settings/entered', desk.cookie)).body.entered;
  await set({ minLugLeftMm: 12 });
  await set({ minLugLeftMm: 12, evenToleranceMm: 2 });
  const before = await entered();
  expect(before).toMatchObject({
    minLugLeftMm: { by: desk.me.name, was: null },
    evenToleranceMm: { by: desk.me.name, was: null },
  });
  await set({ evenToleranceMm: 2 });
  expect(await entered()).toMatchObject({ minLugLeftMm: { was: 12 }, evenToleranceMm: { was: null } });
  expect((await ask('GET', '/api/settings/entered', measuring.cookie)).body.error.code).toBe('forbidden');
});
