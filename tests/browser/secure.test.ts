/** Over HTTPS: a browser that trusts the shop's own authority is a station; one that does not sees nothing. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, entry } from '../helpers/floor.ts';
import { launchTrusting, TRUST } from '../helpers/trust.ts';
import type { TrustingBrowser } from '../helpers/trust.ts';
import { watch } from '../helpers/watch.ts';

let data: string;
let server: ServerProcess;
let trusting: TrustingBrowser;
let stranger: Browser;
/** The server's port, as a name that its certificate holds. */
let secure: string;
let plain: string;

beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-secure-'));
  server = await startServer(data, ['--host', '127.0.0.1', '--port', '0']);
  const { port } = new URL(server.url);
  secure = `https://127.0.0.1:${port}`;
  plain = `http://127.0.0.1:${port}`;
  [trusting, stranger] = await Promise.all([launchTrusting(join(data, 'tls')), launchBrowser()]);
});
afterAll(async () => {
  await trusting?.close();
  await stranger?.close();
  await server?.stop();
  rmSync(data, { recursive: true, force: true });
});

/** As the console shows them: for the desk, for measuring, for the bench, for all three. */
const codes = () => [...server.output().matchAll(/^ *(\d{6}) +[a-z]+/gm)].map(([, code]) => code!);
const open = async (browser: Browser): Promise<Page> => (await browser.newContext()).newPage();

it('is no page at all to a browser that does not know the authority', async () => {
  const page = await open(stranger);
  await expect(page.goto(`${secure}/desk`)).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID');
});

it('leads over plain http to the trust page, while a code is waiting to be used', async () => {
  const page = await open(stranger);
  const answer = await page.goto(`${plain}/trust`);
  expect(answer?.status()).toBe(200);
  await page.getByRole('heading', { name: 'Trust this workshop’s server' }).waitFor();
  // On the console it stands in two lines.
  const [, ...halves] = /SHA-256 fingerprint.*\n +([0-9A-F:]+)\n +([0-9A-F:]+)\n/.exec(server.output())!;
  expect(await page.locator('code').innerText()).toBe(halves.join(''));
  const loaded = page.waitForEvent('download');
  await page.getByRole('link', { name: 'Load the certificate' }).click();
  expect((await loaded).suggestedFilename()).toBe('fibula-ca.crt');
  // All else is sent to the address that this browser does not trust.
  await expect(page.goto(`${plain}/desk`)).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID');
});

it(`pairs and syncs over TLS in a browser that trusts the authority (by its ${TRUST})`, async () => {
  const sockets: string[] = [];
  const desk = await floor.pair(trusting.browser, secure, 'desk', codes()[0]!);
  const seen = watch(desk, secure);
  desk.on('websocket', (socket) => sockets.push(socket.url()));
  expect(await desk.evaluate(() => isSecureContext)).toBe(true);
  await floor.beginIntake(desk, 'Rosina Thalhammer');
  await floor.choose(desk, 'Describe the boots', 'Leave the boots to the floor');
  const session = await floor.openSession(desk);
  await floor.allSaved(desk);
  expect(factsOnDisk(data, session).map(({ kind }) => kind)).toEqual(['session.opened', 'health.asked']);
  expect(sockets).toContainEqual(expect.stringContaining(`${secure.replace('https', 'wss')}/sync/session/`));

  const measuring = await floor.pair(trusting.browser, secure, 'measuring', codes()[1]!);
  await button(measuring, /Rosina Thalhammer/).click();
  await button(measuring, /^Cant on the sole/)
    .first()
    .click();
  await button(measuring.getByRole('dialog'), 'Brought flat: 0°').click();
  await entry(desk, 'Right sole: cant 0°, as brought', '· saved').waitFor();
  const [cookie] = await desk.context().cookies();
  expect(cookie).toMatchObject({ name: 'fibula', httpOnly: true, secure: true, sameSite: 'Strict' });
  expect(seen.take()).toEqual([]);
});

it('shuts the trust page over plain http once no code is waiting', async () => {
  const page = await open(stranger);
  const { request } = await stranger.newContext({ ignoreHTTPSErrors: true });
  const paired = async (code: string) =>
    (await request.post(`${secure}/api/pair`, { data: { code }, headers: { origin: secure } })).status();
  const [used, , ...good] = codes();
  expect(await paired(used!)).toBeGreaterThanOrEqual(400);
  for (const code of good) {
    expect((await page.goto(`${plain}/trust`))?.status()).toBe(200);
    expect(await paired(code)).toBe(200);
  }
  expect((await page.goto(`${plain}/trust`))?.status()).toBe(403);
  expect((await request.get(`${plain}/trust/ca.crt`)).status()).toBe(403);
});
