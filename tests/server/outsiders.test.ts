/** Requests by outsiders, byte by byte: foreign names, paths out of the pages, methods, bodies and log lines. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

const SECRET = 'what nobody outside may read';
let top: string;
let running: Running;
let desk: Station;

beforeAll(async () => {
  top = mkdtempSync(join(tmpdir(), 'fibula-outsiders-'));
  const pages = join(top, 'pages');
  mkdirSync(join(pages, 'assets'), { recursive: true });
  writeFileSync(join(pages, 'index.html'), '<!doctype html><title>ours</title>');
  writeFileSync(join(pages, 'assets', 'a.js'), 'export {}');
  writeFileSync(join(top, 'secret.txt'), SECRET);
  running = await run({ pages });
  desk = await running.station(['desk']);
});
afterAll(async () => {
  await running.close();
  rmSync(top, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly head: string;
  readonly body: string;
}

/** The answer to these very bytes; nothing in between puts them right. */
async function say(first: string, headers: readonly string[] = [], body = ''): Promise<Answer> {
  const { port, host } = new URL(running.url);
  const named = headers.some((line) => /^host:/i.test(line)) ? headers : [`Host: ${host}`, ...headers];
  const length = body === '' ? [] : [`Content-Length: ${Buffer.byteLength(body)}`];
  let said = '';
  let closed = false;
  const socket = connect(Number(port), '127.0.0.1');
  socket.on('data', (part) => (said += part.toString('latin1')));
  socket.on('error', () => undefined);
  socket.on('close', () => (closed = true));
  socket.write(`${[first, ...named, ...length, 'Connection: close'].join('\r\n')}\r\n\r\n${body}`);
  await until(() => closed, 'the answer');
  const [head = '', ...rest] = said.split('\r\n\r\n');
  return { status: Number(head.split(' ')[1]), head, body: rest.join('\r\n\r\n') };
}
const ours = () => [`Cookie: ${desk.cookie}`, `Origin: ${running.url}`];
const stillServing = async () => expect((await say('GET /healthz HTTP/1.1')).status).toBe(200);

describe('a foreign name that was made to point here', () => {
  it.each([
    'elsewhere.example',
    'elsewhere.example:4180',
    '127.0.0.1.elsewhere.example',
    'localhost.elsewhere.example',
    '127.0.0.1@elsewhere.example',
    '',
  ])('gets nothing, not even as a page: %j', async (host) => {
    for (const path of ['/', '/api/me', '/assets/a.js', '/healthz']) {
      const { status, head } = await say(`GET ${path} HTTP/1.1`, [`Host: ${host}`, `Cookie: ${desk.cookie}`]);
      expect([400, 421]).toContain(status);
      expect(head).not.toMatch(/elsewhere/);
    }
  });

  it('is not let in by a whole address in the request’s first line', async () => {
    const { status, body } = await say('GET http://elsewhere.example/api/me HTTP/1.1', [
      'Host: elsewhere.example',
      `Cookie: ${desk.cookie}`,
    ]);
    expect([400, 421]).toContain(status);
    expect(body).not.toMatch(/desk/);
  });
});

describe('a path', () => {
  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/..\\secret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '//secret.txt',
    '/%00/../secret.txt',
    '/....//secret.txt',
    '/%252e%252e/secret.txt',
  ])('does not lead out of the pages: %s', async (path) => {
    const { status, body } = await say(`GET ${path} HTTP/1.1`);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(body).not.toContain(SECRET);
    await stillServing();
  });
});

describe('a method', () => {
  it.each(['OPTIONS', 'PUT', 'DELETE', 'TRACE', 'PATCH'])(
    '%s says nothing to a foreign page',
    async (method) => {
      const { status, head, body } = await say(`${method} /api/me HTTP/1.1`, [
        'Origin: http://elsewhere.example',
        `Cookie: ${desk.cookie}`,
        'Access-Control-Request-Method: PUT',
      ]);
      expect([400, 403, 404, 405]).toContain(status);
      expect(head).not.toMatch(/access-control-allow/i);
      expect(body).not.toContain(desk.cookie);
    },
  );

  it('HEAD asks what GET asks, and is told as much of it', async () => {
    expect(await say('HEAD /api/me HTTP/1.1')).toMatchObject({ status: 401, body: '' });
    expect(await say('HEAD / HTTP/1.1')).toMatchObject({ status: 200, body: '' });
  });

  it('pages are there to be read only', async () => {
    for (const method of ['POST', 'PUT', 'DELETE'])
      expect((await say(`${method} / HTTP/1.1`, ours(), '{}')).status).toBe(404);
  });
});

describe('every answer', () => {
  it.each([
    ['a page', 'GET / HTTP/1.1', 200],
    ['an asset', 'GET /assets/a.js HTTP/1.1', 200],
    ['the API', 'GET /api/me HTTP/1.1', 401],
    ['nothing', 'GET /nowhere HTTP/1.1', 404],
  ])(
    'lets no page run or load anything of others, and be framed by none: %s',
    async (_title, first, status) => {
      const answer = await say(first);
      expect(answer.status).toBe(status);
      const policy = /content-security-policy: (.*)/i.exec(answer.head)![1]!;
      expect(policy).toMatch(
        /default-src 'none'.*script-src 'self'.*base-uri 'none'.*frame-ancestors 'none'/,
      );
      expect(policy.replace(/ws:\/\/[\d.:]+/, '')).not.toMatch(/https?:|unsafe-eval|\*/);
      expect(policy).not.toMatch(/script-src[^;]*unsafe/);
      expect(answer.head).toMatch(/x-content-type-options: nosniff/i);
      expect(answer.head).not.toMatch(/access-control-allow|x-powered-by/i);
    },
  );

  it('lets the page of a paper be framed by our own pages, and by nobody else', async () => {
    for (const path of ['/paper', '/paper/', '/paper?in=de']) {
      const policy = /content-security-policy: (.*)/i.exec((await say(`GET ${path} HTTP/1.1`)).head)![1]!;
      expect(policy).toMatch(/frame-src 'self'; frame-ancestors 'self'(;|\s*$)/);
    }
    const { head } = await say('GET /papers HTTP/1.1');
    expect(head).toMatch(/frame-ancestors 'none'/);
  });

  it('says no more of the Host header than a name that is ours', async () => {
    const { status, head } = await say('GET / HTTP/1.1', ["Host: x;script-src 'unsafe-inline'"]);
    expect([400, 421]).toContain(status);
    expect(head).not.toMatch(/unsafe-inline'(?!;)|x;script/);
  });
});

describe('a body', () => {
  it.each([
    '{"__proto__":{"roles":["desk"]},"roles":["bench"]}',
    '{"constructor":{"prototype":{"admin":true}},"roles":["bench"]}',
  ])('cannot reach into other objects: %s', async (body) => {
    expect((await say('POST /api/codes HTTP/1.1', ours(), body)).status).toBe(400);
    expect(({} as Record<string, unknown>)['roles']).toBeUndefined();
    expect(({} as Record<string, unknown>)['admin']).toBeUndefined();
    await stillServing();
  });

  it.each(['['.repeat(16_000), `{"roles":${'{"a":'.repeat(2_500)}1${'}'.repeat(2_500)}}`])(
    'nested without end is refused',
    async (body) => {
      expect((await say('POST /api/codes HTTP/1.1', ours(), body)).status).toBe(400);
      await stillServing();
    },
  );

  it('cut off in the middle is nobody’s failure', async () => {
    const { port, host } = new URL(running.url);
    const before = running.log.length;
    const socket = connect(Number(port), '127.0.0.1');
    socket.on('error', () => undefined);
    const head = ['POST /api/codes HTTP/1.1', `Host: ${host}`, ...ours(), 'Content-Length: 50'];
    socket.write(`${head.join('\r\n')}\r\n\r\n{"roles"`);
    await until(() => socket.bytesWritten > 0 && !socket.pending, 'the first half to be sent');
    await stillServing();
    socket.resetAndDestroy();
    await until(() => socket.destroyed, 'the connection to be gone');
    await stillServing();
    expect(running.log.slice(before).filter(({ level }) => Number(level) >= 50)).toEqual([]);
  });
});

it('what a request says cannot write a line of the log', async () => {
  const forged = '{"level":60,"msg":"forged"}';
  for (const first of [
    `POST /api/pair%0a${encodeURIComponent(forged)} HTTP/1.1`,
    `GET /api/people/%0d%0a${encodeURIComponent(forged)} HTTP/1.1`,
  ])
    await say(first, ours());
  await say(
    'POST /api/pair HTTP/1.1',
    [`Origin: ${running.url}`],
    JSON.stringify({ code: '000000', name: `x\n${forged}` }),
  );
  expect(running.log.filter(({ msg }) => msg === 'forged')).toEqual([]);
});
