/** The storm on the network, in short; and what it has found, each by itself. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { WebSocket } from 'ws';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { BOUND } from '../../server/limits.ts';
import type { Station } from '../../demo/station.ts';
import { randomFrom } from '../../demo/random.ts';
import { Link } from '../../stations/kit/link.ts';
import { Proxy } from '../helpers/proxy.ts';
import type { Counts } from '../helpers/proxy.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from '../server/helpers/running.ts';
import type { Running } from '../server/helpers/running.ts';
import { noBreaks } from './check.ts';
import { Drafts } from './drafts.ts';
import { networkStorm } from './network.ts';
import { becomeBrowser, inPage } from './page.ts';
import { settle } from './settle.ts';
import { Tablet } from './tablet.ts';
import { Witness } from './witness.ts';

const SEED = Number(process.env['FIBULA_SEED'] ?? 20260109);

describe('bad networks', () => {
  it(`leave all stations with the same plan, from twelve seeds (the first is ${SEED})`, async () => {
    const seeds = Array.from({ length: 12 }, (_, i) => SEED + i);
    const reports = await networkStorm({ seeds, atOnce: 4 });
    expect(reports.flatMap(({ seed, breaks }) => breaks.map((line) => `seed ${seed}: ${line}`))).toEqual([]);
    expect(reports.map(({ seed }) => seed).sort()).toEqual(seeds);
    // It was a storm: each fault came, and entries were made while there was no way through.
    const all = (name: keyof Counts) => reports.reduce((sum, { network }) => sum + network[name], 0);
    for (const name of ['delayed', 'split', 'dropped', 'halfOpen', 'reordered', 'cutOff'] as const)
      expect(all(name), name).toBeGreaterThan(0);
    expect(reports.reduce((sum, { inPartition }) => sum + inPartition, 0)).toBeGreaterThan(20);
  }, 400_000);
});

describe('one bad line', () => {
  const shopHeartbeatMs = BOUND.heartbeatMs;
  let running: Running;
  let desk: Station;
  let proxy: Proxy;

  beforeEach(async () => {
    becomeBrowser();
    Object.assign(BOUND, { heartbeatMs: 500 }); // dead lines are found in a second, not in twenty
    running = await run({ limits: { ...STANDARD_LIMITS, socketsPerStation: 3 } });
    desk = await running.station(['desk']);
    proxy = await Proxy.to(running.url, SEED);
  });
  afterEach(async () => {
    await proxy.close();
    await running.close();
    Object.assign(BOUND, { heartbeatMs: shopHeartbeatMs });
  });

  function linkBy(openingMs?: number): { link: Link; closed: number[] } {
    const page = {
      origin: proxy.url,
      cookie: desk.cookie,
      witness: new Witness(),
      sockets: new Set<WebSocket>(),
    };
    const { number } = desk.me;
    const url = `${proxy.url.replace('http', 'ws')}/sync`;
    const closed: number[] = [];
    const link = inPage(page, () => {
      const room = `session/${newSession()}/1`;
      return new Link({ room, station: number, url, ...(openingMs === undefined ? {} : { openingMs }) });
    });
    link.on('closed', (code) => closed.push(code));
    inPage(page, () => link.connect());
    return { link, closed };
  }

  it('takes a connection and never answers: the station lets it go and tries again', async () => {
    proxy.cut('silent');
    const { link } = linkBy(300);
    await until(() => proxy.counts.cutOff > 0, 'a connection that nobody answers');
    proxy.heal({ hangUp: false });
    await until(() => link.connected, 'the station to be connected');
    link.destroy();
  });

  it('dies again and again unknown to the server: the station is put off, not sent away', async () => {
    const { link, closed } = linkBy();
    for (let dead = 1; dead <= 3; dead++) {
      await until(() => link.connected, 'the station to be connected');
      proxy.orphan();
      await until(() => !link.connected, 'the line to be dead at this end');
    }
    await until(() => running.log.some(({ msg }) => msg === 'socket refused'), 'one too many');
    await until(() => link.connected || closed.length > 0, 'the station to be connected once more');
    expect(closed).toEqual([]);
    link.destroy();
  });

  it('is told from a good one by the check: what waits behind it is said', async () => {
    const random = randomFrom(SEED);
    const drafts = new Drafts(SEED);
    const options = { role: 'desk', name: 'the desk', random, drafts, witness: new Witness() } as const;
    const tablet = Tablet.of(desk, { ...options, url: proxy.url });
    const session = newSession();
    tablet.begin(session);
    await until(() => tablet.saved(session).length === 1, 'the session to be open');
    proxy.cut('silent');
    tablet.enter();
    const breaks = noBreaks();
    const sessions = new Map([[session, [tablet]]]);
    await settle({ data: running.data, sessions, when: 'behind a dead line', breaks, limitMs: 500 });
    expect(breaks.other.join()).toMatch(/the desk: connected, 2 facts, 1 waiting.*shows another plan/);
    tablet.close();
  });
});
