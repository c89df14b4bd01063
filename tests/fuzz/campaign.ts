/** One attack on one server: frames, requests and broken sockets at once, while two honest stations work. */
import { readFileSync } from 'node:fs';
import { oneBrokenSocket } from './broken-sockets.ts';
import { newHttpTally } from './bare.ts';
import type { HttpTally, HttpTarget } from './bare.ts';
import { chanceFrom } from './chance.ts';
import { heapOf, slopeOf } from './heap.ts';
import type { Sample } from './heap.ts';
import { oneRequest } from './http.ts';
import { Lane, newTally } from './lane.ts';
import type { LaneOptions, Tally } from './lane.ts';
import { routesOfServer } from './routes.ts';
import { openShop, scout } from './shop.ts';
import type { LimitsOf, Shop } from './shop.ts';

export interface Campaign {
  readonly seed: number;
  /** Frames to send in all. */
  readonly frames: number;
  readonly limits: LimitsOf;
  readonly samples: number;
  onSample?(sample: Sample): void;
}

export interface Report {
  readonly tally: Tally;
  readonly http: HttpTally;
  readonly honestFacts: number;
  readonly heap: readonly Sample[];
  /** Bytes per 100,000 frames; null where too few samples were asked for. */
  readonly slope: number | null;
  readonly seconds: number;
  readonly faults: readonly string[];
}

/** Frames on a connection before the one that may close it; with the standard limits, enough to meet them. */
const STILL = { raised: 25, standard: 400 } as const;
const FRAMES_PER_REQUEST = 40;
const FRAMES_PER_BROKEN_SOCKET = 2_500;
const FRAMES_PER_TURN = 2_000;
const ATTACKERS = '127.0.0.2';
const OTHER_ATTACKERS = '127.0.0.3';
/** Past this many, more of the same says nothing new. */
const FAULTS = 20;

export async function attack(campaign: Campaign): Promise<Report> {
  const started = performance.now();
  const shop = await openShop(campaign.limits);
  try {
    const run = new Run(campaign, shop);
    await run.all();
    await shop.honest.settle().catch((error: Error) => run.faults.push(`honest stations: ${error.message}`));
    const heap = run.heap;
    await shop.server.stop();
    const { exitCode, signalCode } = shop.server.process;
    const faults = [
      ...run.tally.faults,
      ...run.http.faults,
      ...run.faults,
      ...(exitCode === 0 ? [] : [`the server ended with ${exitCode ?? signalCode}`]),
      ...(await shop.honest.faults(shop.server.data)),
      ...failuresLogged(shop.log),
    ];
    return {
      tally: run.tally,
      http: run.http,
      honestFacts: shop.honest.saved,
      heap,
      slope: heap.length >= 8 ? slopeOf(heap) : null,
      seconds: Math.round((performance.now() - started) / 1000),
      faults: faults.slice(0, FAULTS),
    };
  } finally {
    await shop.close();
  }
}

class Run {
  readonly tally = newTally();
  readonly http = newHttpTally();
  readonly heap: Sample[] = [];
  readonly faults: string[] = [];
  readonly #campaign: Campaign;
  readonly #shop: Shop;

  constructor(campaign: Campaign, shop: Shop) {
    this.#campaign = campaign;
    this.#shop = shop;
  }

  /** Frames that were sent, whatever became of them. */
  get #sent(): number {
    return this.tally.frames + this.tally.limited;
  }

  get #over(): boolean {
    const { process } = this.#shop.server;
    const faults = this.tally.faults.length + this.http.faults.length + this.faults.length;
    return (
      this.#sent >= this.#campaign.frames ||
      faults > FAULTS ||
      process.exitCode !== null ||
      process.signalCode !== null
    );
  }

  async all(): Promise<void> {
    const lanes = (await this.#lanes()).map((options) => new Lane(options));
    const target = this.#httpTarget(await routesOfServer());
    await Promise.all([
      ...lanes.map((lane) => this.#repeat(() => lane.round())),
      ...[1, 2, 3, 4].map((number) => this.#requests(target, number)),
      this.#every(FRAMES_PER_TURN, () => this.#shop.honest.turn(), 'honest stations'),
      this.#every(
        Math.ceil(this.#campaign.frames / this.#campaign.samples),
        () => this.#sample(),
        'the heap',
      ),
    ]);
    for (const lane of lanes) lane.close();
  }

  async #lanes(): Promise<LaneOptions[]> {
    const { rooms, measuring, all, wall } = this.#shop;
    const { boot } = all.me;
    const still = STILL[this.#campaign.limits];
    const places = [
      ...Array.from({ length: 4 }, () => ({ station: measuring, room: rooms.honest, still })),
      ...Array.from({ length: 3 }, () => ({ station: all, room: rooms.honest, still })),
      ...Array.from({ length: 3 }, () => ({ station: all, room: rooms.own, still })),
      { station: all, room: `board/desk/${boot}`, still: 0 },
      { station: wall, room: `board/wall/${boot}`, still: 0 },
    ];
    const lanes: LaneOptions[] = [];
    for (const [index, place] of places.entries())
      lanes.push({
        ...place,
        address: index % 2 === 0 ? ATTACKERS : OTHER_ATTACKERS,
        target: await scout(place.station, place.room, 1_000 + index),
        chance: chanceFrom(this.#campaign.seed + index),
        tally: this.tally,
      });
    return lanes;
  }

  #httpTarget(routes: HttpTarget['routes']): HttpTarget {
    const { server, measuring, wall, all, honest } = this.#shop;
    return {
      url: server.url,
      routes,
      cookies: [
        '',
        measuring.cookie,
        wall.cookie,
        `fibula=${'A'.repeat(43)}`,
        'fibula=',
        'fibula=%',
        'x=1; fibula=y',
      ],
      desk: all.cookie,
      session: honest.session,
      address: ATTACKERS,
    };
  }

  async #requests(target: HttpTarget, number: number): Promise<void> {
    const chance = chanceFrom(this.#campaign.seed + 100 + number);
    let broken = 0;
    await this.#repeat(async () => {
      if (this.http.requests > this.#sent / FRAMES_PER_REQUEST)
        return new Promise((resolve) => setTimeout(resolve, 5));
      if (number === 1 && broken < this.#sent / FRAMES_PER_BROKEN_SOCKET) {
        broken += 1;
        return oneBrokenSocket(chance, target, this.#shop.rooms.honest, this.http);
      }
      return oneRequest(chance, target, this.http);
    });
  }

  async #sample(): Promise<void> {
    const sample = { frames: this.#sent, heap: await heapOf(this.#shop.server) };
    this.heap.push(sample);
    this.#campaign.onSample?.(sample);
  }

  async #repeat(work: () => Promise<unknown>): Promise<void> {
    while (!this.#over) await work();
  }

  /** Again each time `frames` more have been sent; the first fault of it is noted, and ends it. */
  async #every(frames: number, work: () => Promise<unknown>, who: string): Promise<void> {
    let next = 0;
    try {
      await this.#repeat(async () => {
        if (this.#sent < next) return new Promise((resolve) => setTimeout(resolve, 5));
        next += frames;
        await work();
      });
    } catch (error) {
      this.faults.push(`${who}: ${(error as Error).message}`);
    }
  }
}

/** Lines by which the server says that it failed on something. */
function failuresLogged(log: string): string[] {
  const lines = readFileSync(log, 'utf8').split('\n').filter(Boolean);
  return lines
    .filter((line) => (JSON.parse(line) as { level: number }).level >= 50)
    .map((line) => `the log says ${line.slice(0, 600)}`);
}
