/**
 * A real server, killed again and again at random moments of a burst from twelve stations, and started again on the
 * same data and the same port.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as Y from 'yjs';
import { randomFrom } from '../../demo/random.ts';
import type { Random } from '../../demo/random.ts';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { until } from '../helpers/until.ts';
import { Wire } from '../server/helpers/wire.ts';
import { allBreaks, checkAllArrived, checkDisk, Ledger, noBreaks } from './check.ts';
import { killUnder, pairCrew } from './crew.ts';
import type { Line } from './crew.ts';
import { canonical, diskAfterDeath, diskOf } from './disk.ts';
import type { Disk } from './disk.ts';
import { sessionId } from './drafts.ts';
import { becomeBrowser } from './page.ts';
import { freePort } from './port.ts';
import { LIMIT_MS, settle } from './settle.ts';
import type { Tablet } from './tablet.ts';
import { Witness } from './witness.ts';

export interface KillOptions {
  readonly seed: number;
  readonly kills: number;
  /** Told after each kill. */
  readonly onRound?: (line: string) => void;
}

export interface KillReport {
  readonly seed: number;
  readonly kills: number;
  readonly sessions: number;
  readonly entered: number;
  readonly acknowledged: number;
  readonly lost: number;
  readonly twice: number;
  /** Times that a station's page was loaded anew, or its line was out for one or more kills. */
  readonly reloads: number;
  readonly outages: number;
  readonly breaks: readonly string[];
}

/** Sessions open at once, and entries after which one is left for a new one. */
const OPEN = 6;
const LONG = 70;
/** Stations of a session beside the desk that opened it. */
const PARTNERS = 3;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

export async function killStorm(options: KillOptions): Promise<KillReport> {
  becomeBrowser();
  const data = mkdtempSync(join(tmpdir(), 'fibula-storm-'));
  const storm = new KillStorm(options, data);
  try {
    return await storm.run();
  } finally {
    await storm.close();
    rmSync(data, { recursive: true, force: true });
  }
}

interface ShopLine extends Line {
  /** Kills for which its line stays out. */
  out: number;
}

class KillStorm {
  readonly #options: KillOptions;
  readonly #data: string;
  readonly #random: Random;
  readonly #witness = new Witness();
  readonly #ledger = new Ledger();
  readonly #breaks = noBreaks();
  readonly #lines: ShopLine[] = [];
  /** Open now: session → the stations in it. */
  readonly #open = new Map<string, readonly ShopLine[]>();
  #port = 0;
  #server: ServerProcess | null = null;
  #sessions = 0;
  #outages = 0;
  #kills = 0;

  constructor(options: KillOptions, data: string) {
    this.#options = options;
    this.#data = data;
    this.#random = randomFrom(options.seed);
  }

  async run(): Promise<KillReport> {
    this.#port = await freePort();
    this.#server = await this.#start();
    await this.#pairAll();
    while (this.#kills < this.#options.kills) {
      await this.#fillShop();
      this.#pullSome();
      await this.#killInBurst();
      this.#plugSome();
      await this.#agree(this.#lines.filter(({ out }) => out === 0));
      if (allBreaks(this.#breaks).length > 0) break;
    }
    await this.#end();
    return this.#report();
  }

  async close(): Promise<void> {
    for (const { tablet, cable } of this.#lines) {
      tablet.close();
      await cable.close();
    }
    await this.#server?.stop();
  }

  #start(): Promise<ServerProcess> {
    const args = ['--plain', '--host', '127.0.0.1', '--port', String(this.#port), '--log-level', 'warn'];
    return startServer(this.#data, args);
  }

  async #pairAll(): Promise<void> {
    for (const line of await pairCrew(this.#server!, this.#options.seed, this.#witness))
      this.#lines.push({ ...line, out: 0 });
  }

  /** Leaves sessions that have become long, and opens new ones. */
  async #fillShop(): Promise<void> {
    for (const [session, crew] of this.#open) {
      const long = crew.some(({ tablet }) => (tablet.sessions.get(session)?.facts.length ?? 0) > LONG);
      if (!long || crew.some(({ out }) => out > 0)) continue;
      for (const { tablet } of crew) tablet.leave(session);
      this.#open.delete(session);
    }
    const online = this.#lines.filter(({ out }) => out === 0);
    const desks = online.filter(({ tablet }) => tablet.role === 'desk');
    while (this.#open.size < OPEN && desks.length > 0) {
      const desk = this.#random.pick(desks);
      const session = sessionId(this.#random);
      this.#sessions += 1;
      desk.tablet.begin(session);
      await until(() => desk.tablet.saved(session).length > 0, `${session} to be open`, LIMIT_MS);
      const crew = new Set([desk]);
      while (crew.size < Math.min(1 + PARTNERS, online.length)) crew.add(this.#random.pick(online));
      for (const { tablet } of crew) tablet.join(session);
      this.#open.set(session, [...crew]);
    }
  }

  #pullSome(): void {
    for (const line of this.#lines) {
      if (line.out > 0 || this.#random.next() > 0.06) continue;
      line.out = 1 + Math.floor(this.#random.between(0, 3));
      line.cable.pull();
      this.#outages += 1;
    }
  }

  #plugSome(): void {
    for (const line of this.#lines) {
      if (line.out === 0) continue;
      line.out -= 1;
      if (line.out === 0) line.cable.plugIn();
    }
  }

  /** The stations work before, through and after the kill; here and there a page is loaded anew meanwhile. */
  async #killInBurst(): Promise<void> {
    let working = true;
    let hurry = true;
    const work = this.#lines.map(({ tablet }) =>
      // Hands go on while the server is away, but nobody hurries at a screen that says waiting.
      tablet.work(
        () => working,
        () => (hurry ? 80 : 1500),
      ),
    );
    try {
      await pause(this.#random.between(0, 350));
      await this.#kill();
      hurry = false;
      const [disk, server] = await Promise.all([this.#readDead(), this.#start(), this.#reloadSome()]);
      this.#server = server;
      checkDisk(disk, this.#open.keys(), this.#witness, this.#ledger, this.#breaks);
      // Now and then the next end comes while the stations are just coming back with what they hold.
      if (this.#random.next() < 0.2 && this.#kills < this.#options.kills) {
        await pause(this.#random.between(0, 600));
        await this.#kill();
        checkDisk(await this.#readDead(), this.#open.keys(), this.#witness, this.#ledger, this.#breaks);
        this.#server = await this.#start();
      }
    } finally {
      working = false;
      await Promise.all(work);
    }
  }

  async #kill(): Promise<void> {
    const server = this.#server!;
    this.#server = null;
    await killUnder(
      server,
      this.#lines.map(({ tablet }) => tablet),
      this.#ledger,
    );
    this.#kills += 1;
  }

  async #readDead(): Promise<Disk> {
    return diskAfterDeath(this.#data, new Set(this.#open.keys()));
  }

  async #reloadSome(): Promise<void> {
    for (const { tablet } of this.#lines) {
      await pause(this.#random.between(0, 20));
      if (this.#random.next() < 0.08) tablet.reload();
    }
  }

  /** Nothing waits any more: these stations, the server and the disk hold the same, and show the same plan. */
  async #agree(lines: readonly ShopLine[]): Promise<void> {
    const online = (crew: readonly ShopLine[]) => crew.filter((line) => lines.includes(line));
    const disk = await settle({
      data: this.#data,
      sessions: new Map([...this.#open].map(([id, crew]) => [id, online(crew).map(({ tablet }) => tablet)])),
      when: `kill ${this.#kills} of seed ${this.#options.seed}`,
      breaks: this.#breaks,
    });
    for (const { tablet } of this.#lines) this.#ledger.note(tablet);
    checkDisk(disk, this.#open.keys(), this.#witness, this.#ledger, this.#breaks);
    await this.#compareServer(disk, this.#random.pick([...this.#open.keys()]));
    const { lost, twice } = this.#breaks;
    this.#options.onRound?.(
      `kill ${this.#kills}: ${this.#ledger.size} acknowledged, ${lost.length} lost, ${twice.length} twice`,
    );
  }

  /** What a program gets that asks the running server for the whole session: byte for byte what is on disk. */
  async #compareServer(disk: Disk, session: string): Promise<void> {
    const wire = new Wire(this.#server!.url, `session/${session}/1`, {
      cookie: this.#lines[0]!.tablet.cookie,
    });
    try {
      const doc = await (await wire.open()).document();
      const there = disk.sessions.get(session)?.state() ?? new Uint8Array();
      if (Buffer.compare(canonical(Y.encodeStateAsUpdate(doc)), there) !== 0)
        this.#breaks.other.push(`the server’s document of ${session} is not the disk’s, byte for byte`);
    } finally {
      wire.close();
    }
  }

  /** Everybody back on the line: each entry ever made anywhere is on the disk, once. */
  async #end(): Promise<void> {
    if (allBreaks(this.#breaks).length > 0) return;
    for (const line of this.#lines) {
      line.out = 0;
      line.cable.plugIn();
    }
    await this.#agree(this.#lines);
    const disk = diskOf(this.#data);
    checkDisk(disk, disk.sessions.keys(), this.#witness, this.#ledger, this.#breaks);
    checkAllArrived(
      this.#lines.map(({ tablet }) => tablet),
      disk,
      this.#breaks,
    );
    for (const session of disk.sessions.keys()) await this.#compareServer(disk, session);
  }

  #report(): KillReport {
    const tablets = this.#lines.map(({ tablet }) => tablet);
    const count = (of: (tablet: Tablet) => number) => tablets.reduce((sum, tablet) => sum + of(tablet), 0);
    return {
      seed: this.#options.seed,
      kills: this.#kills,
      sessions: this.#sessions,
      entered: count(({ entered }) => [...entered.values()].reduce((sum, facts) => sum + facts.size, 0)),
      acknowledged: this.#ledger.size,
      lost: this.#breaks.lost.length,
      twice: this.#breaks.twice.length,
      reloads: count(({ reloads }) => reloads),
      outages: this.#outages,
      breaks: allBreaks(this.#breaks),
    };
  }
}
