/** HTTPS from the first day: the shop's own authority, the one port, and what plain http still shows. */
import { createServer, request } from 'node:https';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { connect as connectPlain } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect as connectTls } from 'node:tls';
import type { PeerCertificate } from 'node:tls';
import { createHash, randomBytes, randomInt, webcrypto, X509Certificate } from 'node:crypto';
import 'reflect-metadata';
import { AsnConvert } from '@peculiar/asn1-schema';
import { id_ce_nameConstraints, NameConstraints } from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CLOSE } from '../../core/index.ts';
import { serverCertificate } from '../../server/certificates.ts';
import { GERMAN_STEPS } from '../../server/trust-steps-de.ts';
import { PLATFORMS } from '../../server/trust-steps.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

let running: Running;
let ca: string;
const read = (name: string) => readFileSync(join(running.data, 'tls', name), 'utf8');

beforeAll(async () => {
  running = await run({ plain: false, names: () => ['fibula.local', 'localhost', '127.0.0.1'] });
  ca = read('ca.crt');
});
afterAll(() => running.close());

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

/** A request that trusts the shop's authority and nothing else. */
const ask = (
  path: string,
  options: { method?: string; body?: unknown; headers?: Record<string, string> } = {},
) =>
  new Promise<Answer>((resolve, reject) => {
    const headers = { origin: running.url, 'content-type': 'application/json', ...options.headers };
    const sent = request(running.url + path, { ca, method: options.method ?? 'GET', headers }, (response) => {
      let text = '';
      response.setEncoding('utf8').on('data', (part) => (text += String(part)));
      response.on('end', () => resolve({ status: response.statusCode!, headers: response.headers, text }));
    });
    sent.on('error', reject).end(options.body === undefined ? undefined : JSON.stringify(options.body));
  });

const plain = (path: string, headers: Record<string, string> = {}) =>
  fetch(running.url.replace('https', 'http') + path, { redirect: 'manual', headers });

describe('the one port', () => {
  it('speaks https to who trusts the authority, and to nobody else', async () => {
    expect(JSON.parse((await ask('/healthz')).text)).toMatchObject({ ok: true, protocol: 1 });
    await expect(fetch(`${running.url}/healthz`)).rejects.toThrow();
  });

  it('pairs over https with a Secure cookie, and syncs over wss', async () => {
    const { code } = running.server.stations.createCode(['desk'])!;
    const answer = await ask('/api/pair', { method: 'POST', body: { code } });
    expect(answer.status).toBe(200);
    const [cookie] = answer.headers['set-cookie'] as string[];
    expect(cookie).toMatch(/; Secure/);
    expect(JSON.parse(answer.text)).toMatchObject({ plain: false });
    const wire = new Wire(running.url, 'board/desk/1', {
      cookie: cookie!.split(';')[0]!,
      origin: running.url,
      ca,
    });
    await (await wire.open()).document();
    wire.close();
    const foreign = new Wire(running.url, 'board/desk/1', {
      cookie: cookie!.split(';')[0]!,
      origin: running.url.replace('https', 'http'),
      ca,
    });
    expect((await (await foreign.open()).isClosed()).code).toBe(CLOSE.forbidden);
  });

  it('sends plain requests to the real address, takes no code and no socket over them', async () => {
    const moved = await plain('/measuring?x=1');
    expect([moved.status, moved.headers.get('location')]).toEqual([307, `${running.url}/measuring?x=1`]);
    const { code } = running.server.stations.createCode(['desk'])!;
    const http = running.url.replace('https', 'http');
    const paired = await fetch(`${http}/api/pair`, {
      method: 'POST',
      redirect: 'manual',
      headers: { origin: http, 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    });
    expect([paired.status, paired.headers.getSetCookie()]).toEqual([307, []]);
    expect((await ask('/api/pair', { method: 'POST', body: { code } })).status).toBe(200); // the code is unused
    const wire = new Wire(http, 'board/desk/1');
    await wire.isClosed();
    expect(wire.heard).toEqual([]);
    expect(await (await plain('/healthz')).json()).toMatchObject({ ok: true });
  });

  it('is not held up by who connects and says nothing, or nonsense', async () => {
    const { port } = new URL(running.url);
    const silent = connectPlain(Number(port), '127.0.0.1');
    const nonsense = connectPlain(Number(port), '127.0.0.1', () =>
      nonsense.write(Buffer.from([0x16, 9, 9, 9, 9, 9, 9])),
    );
    nonsense.on('error', () => undefined);
    await until(() => nonsense.closed, 'the nonsense to be ended');
    expect((await ask('/healthz')).status).toBe(200);
    silent.destroy();
  });
});

describe('the trust page', () => {
  it('is open over plain http while a code is alive, shows the fingerprint and hands out the authority', async () => {
    running.server.stations.createCode(['bench']);
    const page = await (await plain('/trust')).text();
    expect(page).toContain(running.server.fingerprint);
    expect(page).toContain(running.url);
    const certificate = await plain('/trust/ca.crt');
    expect(certificate.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    const der = Buffer.from(await certificate.arrayBuffer());
    expect(createHash('sha256').update(der).digest('hex').toUpperCase()).toBe(
      running.server.fingerprint!.replaceAll(':', ''),
    );
    expect(new X509Certificate(der).fingerprint256).toBe(running.server.fingerprint);
  });

  it('speaks the browser’s language, or the one that is asked for', async () => {
    const lang = async (path: string, accepts?: string) => {
      const text = await (
        await plain(path, accepts === undefined ? {} : { 'accept-language': accepts })
      ).text();
      return [/<html lang="(\w+)"/.exec(text)![1], /<h2>4 · (\p{L}+)<\/h2>/u.exec(text)![1]];
    };
    const [english, german] = [
      ['en', 'Open'],
      ['de', 'Öffnen'],
    ];
    expect(await lang('/trust')).toEqual(english);
    expect(await lang('/trust', 'de-AT,de;q=0.9,en;q=0.8')).toEqual(german);
    expect(await lang('/trust', 'fr,en;q=0.8,de;q=0.5')).toEqual(english);
    expect(await lang('/trust?lang=de', 'en')).toEqual(german);
    expect(await lang('/trust?lang=en', 'de')).toEqual(english);
    expect(await lang('/trust?lang=%22%3E', 'fr')).toEqual(english);
  });

  it('has German steps for each platform, none of them in English', () => {
    for (const { id, steps, note } of PLATFORMS) {
      const german = GERMAN_STEPS[id];
      for (const [i, text] of german.steps.entries()) expect(text).not.toBe(steps[i]);
      expect(german.note).not.toBe(note);
      expect([...german.steps, german.note].join(' ')).not.toMatch(/\b(the|and|then|open|tap|click)\b/);
    }
  });

  it('is closed when no code is', async () => {
    running.clock.aheadMs = 11 * 60_000;
    expect((await plain('/trust')).status).toBe(403);
    expect((await plain('/trust/ca.crt')).status).toBe(403);
    expect((await ask('/trust/ca.crt')).status).toBe(403);
    running.clock.aheadMs = 0;
  });
});

describe('the authority', () => {
  it('is one: critical constraints, path length 0, a key that only the owner reads', () => {
    const certificate = new x509.X509Certificate(ca);
    const basic = certificate.getExtension(x509.BasicConstraintsExtension)!;
    expect([basic.ca, basic.pathLength, basic.critical]).toEqual([true, 0, true]);
    const extension = certificate.getExtension(id_ce_nameConstraints)!;
    expect(extension.critical).toBe(true);
    const permitted = [...AsnConvert.parse(extension.value, NameConstraints).permittedSubtrees!].map(
      ({ base }) => base,
    );
    expect(permitted.flatMap(({ dNSName }) => dNSName ?? [])).toEqual(['fibula.local', 'localhost']);
    expect(permitted.flatMap(({ iPAddress }) => iPAddress ?? [])).toContain('192.168.0.0/16');
    for (const name of ['ca.key', 'server.key'])
      expect(statSync(join(running.data, 'tls', name)).mode & 0o777).toBe(0o600);
  });

  it.each([
    ['localhost', true],
    ['bank.example', false],
  ])('with its key stolen: a certificate for %s is believed: %s', async (name, believed) => {
    const key = x509.PemConverter.decodeFirst(read('ca.key'));
    const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
    const signingKey = await webcrypto.subtle.importKey('pkcs8', key, algorithm, false, ['sign']);
    const keys = (await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify'])) as CryptoKeyPair;
    const leaf = await x509.X509CertificateGenerator.create({
      serialNumber: '02',
      subject: `CN=${name}`,
      issuer: new x509.X509Certificate(ca).subject,
      notBefore: new Date(Date.now() - 1_000),
      notAfter: new Date(Date.now() + 86_400_000),
      signingAlgorithm: algorithm,
      publicKey: keys.publicKey,
      signingKey: signingKey as CryptoKey,
      extensions: [new x509.SubjectAlternativeNameExtension([new x509.GeneralName('dns', name)])],
    });
    const pem = x509.PemConverter.encode(
      await webcrypto.subtle.exportKey('pkcs8', keys.privateKey as webcrypto.CryptoKey),
      'PRIVATE KEY',
    );
    const server = createServer({ cert: leaf.toString('pem'), key: pem });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    const outcome = await new Promise<string>((resolve) => {
      const socket = connectTls({ port, host: '127.0.0.1', servername: name, ca }, () => {
        socket.destroy();
        resolve('believed');
      });
      socket.on('error', (error: NodeJS.ErrnoException) => resolve(error.message));
    });
    server.close();
    expect(outcome).toMatch(believed ? /^believed$/ : /permitted subtree violation/);
  });
});

describe('certificates on disk', () => {
  it('stay while they fit, are renewed before they end and when an address comes, and the authority stays', async () => {
    const directory = mkdtempSync(join(tmpdir(), 'fibula-tls-'));
    let now = Date.now();
    const outside = { now: () => now, randomBytes: (count: number) => randomBytes(count), randomInt };
    const names = ['fibula.local', '192.168.1.20'];
    const first = await serverCertificate(directory, names, outside);
    expect(await serverCertificate(directory, names, outside)).toEqual(first);
    const moved = await serverCertificate(directory, ['fibula.local', '192.168.1.77'], outside);
    expect(moved.cert).not.toBe(first.cert);
    expect(moved.fingerprint).toBe(first.fingerprint);
    expect(new X509Certificate(moved.cert).subjectAltName).toMatch(/192\.168\.1\.77/);
    now += 380 * 86_400_000;
    const renewed = await serverCertificate(directory, ['fibula.local', '192.168.1.77'], outside);
    expect(renewed.cert).not.toBe(moved.cert);
    expect(renewed.fingerprint).toBe(first.fingerprint);
    expect(Date.parse(new X509Certificate(renewed.cert).validTo)).toBeGreaterThan(now + 300 * 86_400_000);
    const other = await serverCertificate(
      directory,
      ['fibula.local', 'new-name.example', '8.8.8.8'],
      outside,
    );
    expect(other.uncovered).toEqual(['new-name.example', '8.8.8.8']);
    rmSync(directory, { recursive: true });
  });

  it('are what a client is shown', async () => {
    const shown = await new Promise<PeerCertificate>((resolve, reject) => {
      const { port } = new URL(running.url);
      const socket = connectTls(
        { port: Number(port), host: '127.0.0.1', servername: 'fibula.local', ca },
        () => {
          resolve(socket.getPeerCertificate());
          socket.destroy();
        },
      ).on('error', reject);
    });
    expect(shown.subjectaltname).toBe('DNS:fibula.local, DNS:localhost, IP Address:127.0.0.1');
  });
});
