/** Certificates over the years of a shop: they end, addresses change, clocks go wrong, authorities follow each other. */
import { randomBytes, randomInt, X509Certificate } from 'node:crypto';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { serverCertificate } from '../../server/certificates.ts';
import { UnusableData } from '../../server/schema.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { authorityOf, dial, shown } from './helpers/tls.ts';
import { Wire } from './helpers/wire.ts';

const DAY = 86_400_000;
const YEAR = 365 * DAY;
const LOCAL = ['127.0.0.1', 'localhost'];

let running: Running | undefined;
const scratch: string[] = [];
afterEach(async () => {
  await running?.close();
  running = undefined;
  for (const directory of scratch.splice(0)) rmSync(directory, { recursive: true, force: true });
});

const directory = () => {
  const made = mkdtempSync(join(tmpdir(), 'fibula-tls-'));
  scratch.push(made);
  return made;
};
/** Certificates on disk, at a time of one's own. */
const at = (now: number) => ({
  now: () => now,
  randomBytes: (count: number) => randomBytes(count),
  randomInt,
});
const codes = (one: Running) => one.server.notices().map(({ code }) => code);
const logged = (one: Running, code: string) => one.log.filter(({ notice }) => notice === code);

describe('a server that runs for years', () => {
  it('shows a new certificate before the old one ends, without a restart, and open connections live on', async () => {
    running = await run({ plain: false });
    const ca = authorityOf(running);
    const before = await shown(running.url);
    const open = await dial(running.url, ca);
    const wire = new Wire(running.url, 'board/wall/1', { cookie: await cookieOf(running), ca });
    await (await wire.open()).document();

    running.clock.aheadMs = 370 * DAY; // 26 days before its end
    const after = await shown(running.url);
    expect(after.serialNumber).not.toBe(before.serialNumber);
    expect(Date.parse(after.valid_to)).toBeGreaterThan(Date.now() + 370 * DAY + 300 * DAY);
    expect(authorityOf(running)).toBe(ca);
    expect(new X509Certificate(after.raw).verify(new X509Certificate(ca).publicKey)).toBe(true);
    expect((await shown(running.url)).serialNumber).toBe(after.serialNumber);

    await wire.document(); // the socket that was there is answered
    open.write('GET /healthz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n');
    let text = '';
    open.on('data', (part) => (text += String(part)));
    await until(() => text.includes('"ok":true'), 'the old connection to be answered');
    expect(wire.closed).toBeNull();
    wire.close();
  });

  it('replaces a certificate that ended while the machine slept, for the first who connects', async () => {
    running = await run({ plain: false });
    const before = await shown(running.url);
    running.clock.aheadMs = 3 * YEAR;
    const after = await shown(running.url);
    expect(after.serialNumber).not.toBe(before.serialNumber);
    expect(Date.parse(after.valid_to)).toBeGreaterThan(Date.now() + 3 * YEAR);
  });

  it('replaces one that ended while it was off, at the start', async () => {
    const data = directory();
    const old = await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now() - 2 * YEAR));
    expect(old.endsMs).toBeLessThan(Date.now());
    running = await run({ plain: false, data });
    const socket = await dial(running.url, authorityOf(running));
    expect(Date.parse(socket.getPeerCertificate().valid_to)).toBeGreaterThan(Date.now() + 300 * DAY);
    expect(running.server.fingerprint).toBe(old.fingerprint);
    socket.destroy();
  });

  it('starts on a full disk with a new one in memory when the old one is due, and writes it once there is space', async () => {
    const data = directory();
    const tls = join(data, 'tls');
    const old = await serverCertificate(tls, LOCAL, at(Date.now() - 380 * DAY)); // renewal is due
    const held = () => ['key', 'crt'].map((end) => readFileSync(join(tls, `server.${end}`), 'utf8'));
    const before = held();
    // A disk without space, on every Linux: what is written there is refused as on a full one.
    symlinkSync('/dev/full', join(tls, 'server.crt.new'));
    running = await run({ plain: false, data });
    const socket = await dial(running.url, authorityOf(running));
    expect(Date.parse(socket.getPeerCertificate().valid_to)).toBeGreaterThan(old.endsMs);
    socket.destroy();
    expect(held()).toEqual(before); // neither half of it
    const [told] = running.log.filter(({ msg }) =>
      msg.startsWith('the new certificate could not be written'),
    );
    expect(told).toMatchObject({ err: { code: 'ENOSPC' } });
    rmSync(join(tls, 'server.crt.new'));
    await running.server.look();
    expect(held()[1]).not.toBe(before[1]);
    const now = await shown(running.url);
    expect(new X509Certificate(held()[1]!).serialNumber).toBe(now.serialNumber);
  });

  it('goes on with what it has when the disk takes no new one, says so once, and tries again later', async () => {
    running = await run({ plain: false });
    const before = await shown(running.url);
    const [there, aside] = [join(running.data, 'tls'), join(running.data, 'tls-aside')];
    renameSync(there, aside);
    writeFileSync(there, 'in the way');
    running.clock.aheadMs = 380 * DAY;
    for (let i = 0; i < 3; i++) expect((await shown(running.url)).serialNumber).toBe(before.serialNumber);
    expect(running.log.filter(({ msg }) => msg === 'the certificate could not be renewed')).toHaveLength(1);
    rmSync(there);
    renameSync(aside, there);
    running.clock.aheadMs += 61_000;
    expect((await shown(running.url)).serialNumber).not.toBe(before.serialNumber);
  });
});

describe('a clock that is wrong', () => {
  it('set back to before the authority was made: the certificate stays, and the console and the desk are told', async () => {
    const data = directory();
    const good = await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now()));
    const back = await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now() - 5 * YEAR));
    expect(back.cert).toBe(good.cert);
    // Even one that has to be made, for a new address, is good for stations whose clocks are right.
    const moved = await serverCertificate(
      join(data, 'tls'),
      [...LOCAL, '10.0.0.9'],
      at(Date.now() - 5 * YEAR),
    );
    expect(moved.endsMs).toBeGreaterThan(Date.now() + 300 * DAY);
    expect(moved.beginsMs).toBeLessThan(Date.now());

    running = await run({ plain: false, data });
    running.clock.aheadMs = -5 * YEAR;
    const socket = await dial(running.url, authorityOf(running)); // whose clock is right
    socket.destroy();
    await running.server.look();
    expect(codes(running)).toEqual(['clock-behind']);
    expect(running.server.notices()[0]!.text).toMatch(/This machine’s clock says .*Set the clock/);
    expect(logged(running, 'clock-behind')).toHaveLength(1);
    running.clock.aheadMs = 0;
    expect(codes(running)).toEqual([]);
  });

  it('that ran ahead and is right again: the certificate of the future is replaced', async () => {
    const data = directory();
    await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now() - YEAR));
    const future = await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now() + 3 * YEAR));
    running = await run({ plain: false, data });
    const socket = await dial(running.url, authorityOf(running));
    expect(socket.getPeerCertificate().serialNumber).not.toBe(new X509Certificate(future.cert).serialNumber);
    socket.destroy();
  });
});

describe('another address', () => {
  it('while the server runs: a certificate for it, and everybody is told what waiting entries need', async () => {
    let address = '127.0.0.1';
    const heard: string[] = [];
    running = await run({
      plain: false,
      canonical: () => address,
      names: () => [...LOCAL, address],
      onNotice: ({ text }) => heard.push(text),
    });
    const first = running.server.address;
    address = '127.0.0.77';
    await running.server.look();
    expect(running.server.address).toBe(first.replace('127.0.0.1', '127.0.0.77'));
    expect((await shown(running.url)).subjectaltname).toContain('IP Address:127.0.0.77');
    expect(running.server.fingerprint).toBe(new X509Certificate(authorityOf(running)).fingerprint256);
    expect(heard).toHaveLength(1);
    expect(heard[0]).toMatch(
      /was https:\/\/127\.0\.0\.1:\d+ and is https:\/\/127\.0\.0\.77:\d+ now.*waiting/,
    );
    const desk = await siteFor(running);
    expect(desk).toMatchObject({ address: running.server.address, notices: [{ code: 'address-changed' }] });
    await running.server.look();
    expect(heard).toHaveLength(1);
  });

  it('after a restart: the start says where the stations went before', async () => {
    const data = directory();
    const port = await freePort();
    running = await run({ plain: false, data, port });
    await running.stop();
    running = await run({ plain: false, data, port, canonical: () => 'localhost' });
    expect(running.server.notices()).toMatchObject([
      {
        code: 'address-changed',
        text: expect.stringContaining(`it was https://127.0.0.1:${port}`) as string,
      },
    ]);
    await running.stop();
    running = await run({ plain: false, data, port, canonical: () => 'localhost' });
    expect(codes(running)).toEqual([]);
  });

  it('with the network gone for a moment is none', async () => {
    let address = '127.0.0.1';
    running = await run({ plain: false, canonical: () => address });
    const first = running.server.address;
    address = 'localhost';
    await running.server.look();
    expect(running.server.address).toBe(first);
  });

  it('that the authority may not vouch for: the rest works, and the command for a new authority is named', async () => {
    const data = directory();
    await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now()));
    const names = [...LOCAL, 'new-name.example'];
    running = await run({ plain: false, data, names: () => names });
    const old = authorityOf(running);
    expect(running.server.notices()).toMatchObject([
      {
        code: 'names-uncovered',
        text: expect.stringMatching(/new-name\.example.*authority -- --renew/) as string,
      },
    ]);
    (await dial(running.url, old)).destroy();
  });
});

describe('an authority after another', () => {
  it('is spoken of a year before its end, on the console, in the log and at the desk', async () => {
    running = await run({ plain: false });
    running.clock.aheadMs = 9 * YEAR - 10 * DAY;
    await running.server.look();
    expect(codes(running)).toEqual([]);
    running.clock.aheadMs = 9 * YEAR + 10 * DAY;
    await running.server.look();
    expect(running.server.notices()).toMatchObject([
      { code: 'authority-ends', text: expect.stringContaining('npm run authority -- --prepare') as string },
    ]);
    expect(logged(running, 'authority-ends')).toHaveLength(1);
    running.clock.aheadMs = 11 * YEAR;
    await running.server.look();
    expect(codes(running)).toEqual(['authority-ended']);
  });

  it('prepared by one that ends, takes its place when it has ended', async () => {
    running = await run({ plain: false });
    const { fingerprint } = running.server;
    running.clock.aheadMs = 9.5 * YEAR;
    const prepared = await running.authority('prepare');
    expect(prepared).toMatchObject({ fingerprint, next: expect.any(String) as string });
    expect(codes(running)).toEqual(['authority-next']);
    running.clock.aheadMs = 10 * YEAR + DAY;
    await running.server.look();
    expect(running.server.fingerprint).toBe(prepared.next);
    expect(codes(running)).toEqual([]);
  });

  it('found half-way after a stop is completed, whichever file had moved', async () => {
    const tls = directory();
    await serverCertificate(tls, LOCAL, at(Date.now()));
    const other = directory();
    const { fingerprint } = await serverCertificate(other, LOCAL, at(Date.now()));
    // The key of the next has gone ahead, its certificate has not.
    writeFileSync(join(tls, 'ca.key'), readFileSync(join(other, 'ca.key')));
    writeFileSync(join(tls, 'ca-next.crt'), readFileSync(join(other, 'ca.crt')));
    expect((await serverCertificate(tls, LOCAL, at(Date.now()))).fingerprint).toBe(fingerprint);
    expect(existsSync(join(tls, 'ca-next.crt'))).toBe(false);
  });

  it('whose key is another’s is not used, and the files are named', async () => {
    const [tls, other] = [directory(), directory()];
    await serverCertificate(tls, LOCAL, at(Date.now()));
    await serverCertificate(other, LOCAL, at(Date.now()));
    writeFileSync(join(tls, 'ca.key'), readFileSync(join(other, 'ca.key')));
    await expect(serverCertificate(tls, LOCAL, at(Date.now()))).rejects.toThrow(UnusableData);
    await expect(serverCertificate(tls, LOCAL, at(Date.now()))).rejects.toThrow(/ca\.crt and .*ca\.key/);
  });

  it('by command: prepared beside the present one, handed out on the trust page, switched to without a restart', async () => {
    running = await run({ plain: false });
    const ca = authorityOf(running);
    expect(await running.authority('switch')).toMatchObject({
      ok: false,
      text: expect.stringContaining('--prepare') as string,
    });
    const { next } = await running.authority('prepare');
    (await dial(running.url, ca)).destroy(); // the present one works on
    running.server.stations.createCode(['bench']);
    const http = running.url.replace('https', 'http');
    expect(await (await fetch(`${http}/trust`)).text()).toContain(next);
    const der = Buffer.from(await (await fetch(`${http}/trust/next-ca.crt`)).arrayBuffer());
    expect(new X509Certificate(der).fingerprint256).toBe(next);

    expect(await running.authority('switch')).toMatchObject({ ok: true, fingerprint: next, next: null });
    (await dial(running.url, new X509Certificate(der).toString())).destroy();
    await expect(dial(running.url, ca)).rejects.toThrow(/unable to verify|self-signed|signature/);
    expect((await fetch(`${http}/trust/next-ca.crt`)).status).toBe(404);
    const [stamp] = readdirSync(join(running.data, 'tls', 'old'));
    expect(readFileSync(join(running.data, 'tls', 'old', stamp!, 'ca.crt'), 'utf8')).toBe(ca);
    // The operator did it: the next start has nothing to say.
    const { data } = running;
    await running.stop();
    running = await run({ plain: false, data });
    expect(codes(running)).toEqual([]);
  });

  it('renewed at once vouches for names that the old one could not', async () => {
    const data = directory();
    await serverCertificate(join(data, 'tls'), LOCAL, at(Date.now()));
    running = await run({ plain: false, data, names: () => [...LOCAL, 'new-name.example'] });
    expect(await running.authority('renew')).toMatchObject({ ok: true, uncovered: [] });
    expect(codes(running)).toEqual([]);
    expect((await shown(running.url)).subjectaltname).toContain('DNS:new-name.example');
  });

  it('on a new machine that got the database from a backup: the start says that the stations know another', async () => {
    running = await run({ plain: false });
    const { data } = running;
    const { fingerprint } = running.server;
    await running.stop();
    rmSync(join(data, 'tls'), { recursive: true });
    running = await run({ plain: false, data });
    expect(running.server.fingerprint).not.toBe(fingerprint);
    expect(codes(running)).toEqual(['authority-replaced']);
  });
});

async function cookieOf(one: Running): Promise<string> {
  const { token } = pairedAs(one, 'desk');
  return Promise.resolve(`fibula=${token}`);
}

function pairedAs({ server: { stations } }: Running, role: 'desk' | 'wall'): { token: string } {
  const { code } = stations.createCode([role])!;
  const paired = stations.pair({ code, address: '127.0.0.1' });
  if (!paired.ok) throw new Error(paired.why);
  return paired;
}

/** What the desk's page is told. */
async function siteFor(one: Running): Promise<unknown> {
  const socket = await dial(one.url, authorityOf(one));
  const cookie = await cookieOf(one);
  let text = '';
  socket.on('data', (part) => (text += String(part)));
  socket.write(`GET /api/site HTTP/1.1\r\nHost: localhost\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`);
  await until(() => socket.closed, 'the answer');
  return JSON.parse(/\{.*\}/s.exec(text)![0]);
}

async function freePort(): Promise<number> {
  const one = await run({});
  const { port } = one.server;
  await one.close();
  return port;
}
