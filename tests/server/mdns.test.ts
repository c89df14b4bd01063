/** The name in the shop's network, on the loopback interface and a port of the test's own. */
import { createSocket } from 'node:dgram';
import makeMulticast from 'multicast-dns';
import type { MulticastDNS } from 'multicast-dns';
import pino from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { announceName, nameCandidates } from '../../server/mdns.ts';
import type { OwnName } from '../../server/mdns.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import { shown } from './helpers/tls.ts';

/** Addresses that documents use and no machine has (RFC 5737). */
const [HERE, THERE] = ['198.51.100.1', '203.0.113.2'];
const INTERFACE = '127.0.0.1';

let port: number;
const closers: (() => Promise<void>)[] = [];

beforeEach(async () => {
  port = await freePort();
});
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

function announce(address: string, base = 'fibula') {
  const names: string[] = [];
  const log: Record<string, unknown>[] = [];
  const own: OwnName = announceName({
    base,
    port,
    interface: INTERFACE,
    addresses: () => [address],
    onName: (name) => names.push(name),
    now: () => Date.now(),
    log: pino({ level: 'debug' }, { write: (line) => log.push(JSON.parse(line) as Record<string, unknown>) }),
  });
  closers.push(() => own.close());
  return { own, names, log };
}

/** Somebody else in the network. */
function neighbour(): MulticastDNS {
  const network = makeMulticast({ port, interface: INTERFACE, bind: '0.0.0.0' });
  closers.push(() => new Promise((resolve) => network.destroy(() => resolve())));
  return network;
}

/** Asks until there is an answer: a datagram may be lost. */
async function lookUp(network: MulticastDNS, name: string) {
  const found: { type: string; data?: unknown; ttl?: number }[] = [];
  network.on('response', ({ answers }) => {
    for (const answer of answers) if ('name' in answer && answer.name === name) found.push(answer);
  });
  await until(() => {
    network.query(name, 'A');
    return found.length > 0;
  }, `an answer for ${name}`);
  return found;
}

describe('a name', () => {
  it('that is free is taken, and answered to with this machine’s address', async () => {
    const { own, names } = announce(HERE);
    expect(own.name()).toBeNull();
    await until(() => own.name(), 'the name to be settled');
    expect(names).toEqual(['fibula.local']);
    const [answer] = await lookUp(neighbour(), 'fibula.local');
    expect(answer).toMatchObject({ type: 'A', data: HERE, flush: true });
  });

  it('that another machine has is left to it: the next one is taken, and the log says so', async () => {
    const first = announce(THERE);
    await until(() => first.own.name(), 'the first to settle');
    const second = announce(HERE);
    await until(() => second.own.name(), 'the second to settle');
    expect([first.own.name(), second.own.name()]).toEqual(['fibula.local', 'fibula-2.local']);
    expect(second.log.map(({ msg }) => msg)).toContain('name taken by another machine');
    expect((await lookUp(neighbour(), 'fibula-2.local'))[0]).toMatchObject({ data: HERE });
  });

  it('reached for by two at once goes to one of them', async () => {
    const both = [announce(HERE), announce(THERE)];
    await until(() => both.every(({ own }) => own.name()), 'both to settle');
    expect(both.map(({ own }) => own.name()).sort()).toEqual(['fibula-2.local', 'fibula.local']);
  });

  it('that another machine comes with later is disputed, and left to it when it answers', async () => {
    const { own } = announce(HERE);
    await until(() => own.name(), 'the name to be settled');
    const rude = neighbour();
    rude.on('query', ({ questions }) => {
      if (questions.some(({ name }) => name === 'fibula.local'))
        rude.respond([{ type: 'A', name: 'fibula.local', ttl: 120, data: THERE }]);
    });
    rude.respond([{ type: 'A', name: 'fibula.local', ttl: 120, data: THERE }]);
    await until(() => own.name() === 'fibula-2.local', 'another name');
  });

  it('that this machine’s own system answers to as well is no collision', async () => {
    const system = announce(HERE);
    await until(() => system.own.name(), 'the first to settle');
    const { own } = announce(HERE);
    await until(() => own.name(), 'the second to settle');
    expect(own.name()).toBe('fibula.local');
  });

  it('is taken back from the network at the end', async () => {
    const { own } = announce(HERE);
    await until(() => own.name(), 'the name to be settled');
    const network = neighbour();
    await lookUp(network, 'fibula.local');
    const goodbyes: unknown[] = [];
    network.on('response', ({ answers }) =>
      goodbyes.push(...answers.filter((answer) => 'ttl' in answer && answer.ttl === 0)),
    );
    await own.close();
    await until(() => goodbyes.length > 0, 'the goodbye');
    expect(own.name()).toBeNull();
  });

  it('is given up with a line in the log when all are taken', async () => {
    const rude = neighbour();
    rude.on('query', ({ questions }) => {
      for (const { name } of questions) rude.respond([{ type: 'A', name, ttl: 120, data: THERE }]);
    });
    const { own, log } = announce(HERE);
    await until(() => log.find(({ msg }) => msg === 'no name by multicast DNS'), 'it to give up', 30_000);
    expect(own.name()).toBeNull();
    expect(log.at(-1)).toMatchObject({ err: { message: expect.stringMatching(/taken|dispute/) as string } });
  });
});

it('a port that cannot be had is a line in the log, and the server serves', async () => {
  const taken = createSocket({ type: 'udp4', reuseAddr: false });
  await new Promise<void>((resolve) => taken.bind(port, '0.0.0.0', () => resolve()));
  closers.push(() => new Promise((resolve) => taken.close(() => resolve())));
  const running = await run({ plain: false, mdns: { base: 'fibula', port, interface: INTERFACE } });
  closers.push(() => running.close());
  await until(() => running.log.find(({ msg }) => msg === 'no name by multicast DNS'), 'the line');
  expect((await shown(running.url)).subjectaltname).toContain('DNS:fibula.local');
});

it('a server whose name is taken has the next one in its certificate, and answers to it', async () => {
  const other = announce(THERE);
  await until(() => other.own.name(), 'the other to settle');
  const running = await run({ plain: false, mdns: { base: 'fibula', port, interface: INTERFACE } });
  closers.push(() => running.close());
  await until(
    async () => (await shown(running.url)).subjectaltname?.includes('DNS:fibula-2.local'),
    'the certificate with the name',
  );
  expect(running.server.notices()).toEqual([]); // the authority was made for such names too
  const { status } = await fetch(`http://127.0.0.1:${running.server.port}/healthz`);
  expect(status).toBe(200);
});

it('nine names are tried', () => {
  expect(nameCandidates('werkstatt')).toHaveLength(9);
  expect(nameCandidates('werkstatt').slice(0, 2)).toEqual(['werkstatt.local', 'werkstatt-2.local']);
});

async function freePort(): Promise<number> {
  const socket = createSocket('udp4');
  await new Promise<void>((resolve) => socket.bind(0, INTERFACE, () => resolve()));
  const { port: free } = socket.address();
  await new Promise<void>((resolve) => socket.close(() => resolve()));
  return free;
}
