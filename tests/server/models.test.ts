/** The shop's catalogue of boots over HTTP: who may, and a table that is taken whole or not at all. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MODEL_COLUMNS } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { asker } from './helpers/asks.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

let running: Running;
let desk: Station;
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
});
afterEach(() => running.close());

const ask = asker(() => running.url);
const TARN = {
  model: 'Tarn 100',
  source: 'measured here',
  soleStandard: 'iso5355-a',
  hardware: {
    pivots: 'single',
    pivotSpacingMm: 84,
    readingHeightMm: 160,
    travel: { lateral: { upMm: 5, downMm: 5 } },
  },
};
const HEADS = MODEL_COLUMNS.map(({ head }) => head);
const names = async () =>
  ((await ask('GET', '/api/models', desk.cookie)).body.models as { model: string }[]).map(
    ({ model }) => model,
  );

async function importTable(file: string | Uint8Array, cookie = desk.cookie) {
  const response = await fetch(`${running.url}/api/models/table`, {
    method: 'POST',
    headers: { origin: running.url, cookie, 'content-type': 'text/csv' },
    body: file as BodyInit,
  });
  // eslint-disable-next-line @typescript-eslint/no-explicit-any
  return { status: response.status, body: (await response.json()) as any };
}
const exported = async () =>
  (await fetch(`${running.url}/api/models/table`, { headers: { cookie: desk.cookie } })).arrayBuffer();

/** A table of these cells, each column by its head. */
const table = (rows: readonly Readonly<Record<string, string>>[], between = ','): string =>
  [HEADS, ...rows.map((row) => HEADS.map((head) => row[head] ?? ''))]
    .map((cells) => cells.map((cell) => (/[,;"\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)))
    .map((cells) => cells.join(between))
    .join('\r\n');
const ROW = {
  model: 'Nadel 90',
  source: 'the maker’s sheet, “2026”, p. 4',
  pivots: 'single',
  'spacing mm': '82,5',
  'reading height mm': '155',
  'lateral up mm': '4',
  'lateral down mm': '4',
  'lateral places': 'A -4; B 0; C 3.5',
  'sole standard': 'iso23223-a',
};

describe('the catalogue', () => {
  it('is read by every station that works on boots, and written by the desk alone', async () => {
    const [measuring, bench, wall] = await Promise.all(
      (['measuring', 'bench', 'wall'] as const).map((role) => running.station([role])),
    );
    expect((await ask('PUT', '/api/models', desk.cookie, TARN)).body).toEqual(TARN);
    for (const station of [desk, measuring!, bench!])
      expect((await ask('GET', '/api/models', station.cookie)).body).toEqual({ models: [TARN] });
    expect((await ask('GET', '/api/models', wall!.cookie)).status).toBe(403);
    for (const station of [measuring!, bench!, wall!]) {
      expect((await ask('PUT', '/api/models', station.cookie, TARN)).status).toBe(403);
      expect((await ask('DELETE', '/api/models/Tarn%20100', station.cookie)).status).toBe(403);
      expect((await ask('GET', '/api/models/table', station.cookie)).status).toBe(403);
      expect((await importTable(table([ROW]), station.cookie)).status).toBe(403);
    }
    expect(await names()).toEqual(['Tarn 100']);
  });

  it('keeps one model in the place of one of the same name, and forgets it when asked', async () => {
    await ask('PUT', '/api/models', desk.cookie, TARN);
    await ask('PUT', '/api/models', desk.cookie, { ...TARN, model: 'TARN  100', source: 'measured again' });
    expect((await ask('GET', '/api/models', desk.cookie)).body.models).toEqual([
      { ...TARN, model: 'TARN  100', source: 'measured again' },
    ]);
    expect((await ask('DELETE', '/api/models/tarn%20100', desk.cookie)).status).toBe(200);
    expect((await ask('DELETE', '/api/models/tarn%20100', desk.cookie)).status).toBe(404);
    expect(await names()).toEqual([]);
  });

  it('refuses a model that does not fit, by its field', async () => {
    const wrong = { ...TARN, hardware: { ...TARN.hardware, pivots: 'dual' } };
    expect((await ask('PUT', '/api/models', desk.cookie, wrong)).body.error.text).toBe(
      'hardware.travel.medial: is missing: two adjusters have two travels.',
    );
    expect((await ask('PUT', '/api/models', desk.cookie, { ...TARN, colour: 'red' })).status).toBe(400);
    expect(await names()).toEqual([]);
  });

  it('is there again after a restart', async () => {
    await importTable(table([ROW]));
    await running.stop();
    running = await run({ data: running.data });
    expect(await names()).toEqual(['Nadel 90']);
  });
});

describe('its table', () => {
  it.each([
    ['commas', ','],
    ['semicolons, as where the comma is in the numbers', ';'],
    ['tabs', '\t'],
  ])('is read with %s between the cells', async (_about, between) => {
    expect((await importTable(table([ROW], between))).body).toEqual({ taken: 1, replaced: 0, faults: [] });
    expect((await ask('GET', '/api/models', desk.cookie)).body.models[0]).toMatchObject({
      source: ROW.source,
      hardware: { pivotSpacingMm: 82.5, positions: { lateral: [{ label: 'A', mm: -4 }, {}, { mm: 3.5 }] } },
    });
  });

  it('goes out and comes in again as it was, the mark of its encoding too', async () => {
    await importTable(table([ROW, { ...ROW, model: 'Grat “Ü” 110' }]));
    const before = (await ask('GET', '/api/models', desk.cookie)).body;
    const file = new Uint8Array(await exported());
    expect([...file.slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    await ask('DELETE', '/api/models/nadel%2090', desk.cookie);
    expect((await importTable(file)).body).toEqual({ taken: 2, replaced: 1, faults: [] });
    expect((await ask('GET', '/api/models', desk.cookie)).body).toEqual(before);
  });

  it('with one cell at fault is not taken at all, and each is named', async () => {
    await ask('PUT', '/api/models', desk.cookie, TARN);
    const answer = await importTable(
      table([ROW, { ...ROW, model: 'Tarn 100', source: 'new', 'spacing mm': 'wide' }]),
    );
    expect(answer).toEqual({
      status: 200,
      body: {
        taken: 0,
        faults: [{ row: 3, column: 'spacing mm', wants: 'must be a number (is “wide”)' }],
      },
    });
    expect((await ask('GET', '/api/models', desk.cookie)).body).toEqual({ models: [TARN] });
  });

  it('that is none is refused in words', async () => {
    const latin = Buffer.from(table([{ ...ROW, model: 'Grät' }]), 'latin1');
    expect((await importTable(latin)).body.error).toEqual({
      code: 'no-table',
      text: 'The file is not UTF-8 text: save it as CSV in UTF-8.',
    });
    expect((await importTable('model,"source\nx')).body.error).toMatchObject({ code: 'no-table' });
    expect((await importTable('x'.repeat(1_000_001))).body.error).toMatchObject({ code: 'too-large' });
    expect((await importTable('')).body.faults).toMatchObject([{ row: 1 }]);
  });

  it('past two thousand models is not taken', async () => {
    const many = (count: number) =>
      table(Array.from({ length: count }, (_, i) => ({ ...ROW, model: `M ${i}` })));
    expect((await importTable(many(2000))).body).toMatchObject({ taken: 2000 });
    expect((await importTable(table([ROW]))).body.error).toMatchObject({ code: 'models-full' });
    expect((await importTable(table([{ ...ROW, model: 'M 7' }]))).body).toMatchObject({ replaced: 1 });
  });
});
