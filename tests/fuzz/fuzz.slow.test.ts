/** The fuzz in short; and that it counts only what the server has read, and would see a heap that grows. */
import { describe, expect, it } from 'vitest';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { newSession, run } from '../server/helpers/running.ts';
import { attack } from './campaign.ts';
import { chanceFrom } from './chance.ts';
import { stillFrame } from './frames.ts';
import { slopeOf } from './heap.ts';
import { Lane, newTally } from './lane.ts';
import { routesOfServer } from './routes.ts';
import { scout } from './shop.ts';

const SEED = Number(process.env['FIBULA_SEED'] ?? 20260109);
/** Bytes that the heap may gain in the second half of so short a run, in which caches and machine code still grow. */
const GAIN = 3_000_000;

describe('the fuzz', () => {
  it(`harms nobody with its frames and requests, the limits raised (seed ${SEED})`, async () => {
    const { faults, tally, http, honestFacts, heap } = await attack({
      seed: SEED,
      frames: 46_000,
      limits: 'raised',
      samples: 6,
    });
    expect(faults).toEqual([]);
    expect(tally.frames).toBeGreaterThanOrEqual(46_000);
    expect(tally.limited).toBe(0);
    expect([...tally.closed.keys()]).toEqual(expect.arrayContaining([4400, 4403]));
    expect([...http.statuses.keys()]).toEqual(expect.arrayContaining([200, 400, 401, 403, 404, 421]));
    expect(honestFacts).toBeGreaterThan(20);
    expect(heap.at(-1)!.heap - heap[Math.floor(heap.length / 2)]!.heap).toBeLessThan(GAIN);
  }, 400_000);

  it(`is held by the standard limits, and harms nobody (seed ${SEED})`, async () => {
    // Enough that a connection sends past a limit, however fast the machine is.
    const { faults, tally } = await attack({ seed: SEED, frames: 24_000, limits: 'standard', samples: 1 });
    expect(faults).toEqual([]);
    expect(tally.limited).toBeGreaterThan(0);
    expect([...tally.closed.keys()]).toContain(4429);
  }, 400_000);

  it('counts frames that were read: those sent before the last leave the connection open', async () => {
    const running = await run({
      limits: {
        ...STANDARD_LIMITS,
        framesPer10s: 1e6,
        bytesPer10s: 1e9,
        questionsPer10s: 1e6,
        gapsPer10s: 1e6,
      },
    });
    const desk = await running.station(['desk']);
    const station = await running.station(['measuring']);
    const session = newSession();
    const room = await desk.enter(session);
    await room.add('desk', 'session.opened', { ticket: '1', clientRef: 'c', service: 'cuffs' });
    const name = `session/${session}/1`;
    const target = await scout(station, name, 1);
    const chance = chanceFrom(SEED);
    const tally = newTally();
    const lane = new Lane({ station, room: name, address: '127.0.0.1', target, chance, tally, still: 1_500 });
    try {
      for (let i = 0; i < 3_000; i++) expect(stillFrame(chance, target).length).toBeGreaterThan(0);
      await lane.round();
      expect(tally).toMatchObject({ frames: 1_501, limited: 0, connections: 1, faults: [] });
      const said = running.log.map(({ msg }) => msg);
      // Every refusal that can be told was: the last frame alone may have closed the connection.
      expect(
        said.filter((msg) => msg === 'malformed frame' || msg === 'update rejected').length,
      ).toBeLessThan(2);
    } finally {
      lane.close();
      room.close();
      await running.close();
    }
  });

  it('sees the growth of a heap after warm-up, and not before', () => {
    const line = (bytes: (frames: number) => number) =>
      Array.from({ length: 41 }, (_, i) => ({ frames: i * 1_000, heap: bytes(i * 1_000) }));
    expect(slopeOf(line((frames) => 5e6 + 12 * frames))).toBeCloseTo(1_200_000);
    expect(slopeOf(line((frames) => Math.min(frames, 10_000) * 100))).toBe(0);
    expect(() => slopeOf([{ frames: 0, heap: 1 }])).toThrow(/no line/);
  });

  it('attacks the routes that a running server has, however they are written in its code', async () => {
    const routes = (await routesOfServer()).map(({ method, path }) => `${method} ${path}`);
    expect(routes.length).toBeGreaterThan(30);
    expect(routes).toContain('POST /api/corner/quarantine/:station/:session/take');
    expect(routes).toContain('GET /trust/ca.crt');
  });
});
