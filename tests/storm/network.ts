/**
 * Stations on bad networks: each has a proxy of its own that delays, drops, half-opens, cuts and reorders, and some
 * are cut off altogether for a while and write on. Afterwards all hold the same.
 */
import { randomFrom } from '../../demo/random.ts';
import type { Random } from '../../demo/random.ts';
import { Station } from '../../demo/station.ts';
import { Crossing, noCounts, Proxy } from '../helpers/proxy.ts';
import type { Counts, Weather } from '../helpers/proxy.ts';
import { serve } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';
import { allBreaks, checkAllArrived, checkDisk, Ledger, noBreaks } from './check.ts';
import type { Breaks } from './check.ts';
import { Drafts, sessionId } from './drafts.ts';
import type { WritingRole } from './drafts.ts';
import { becomeBrowser } from './page.ts';
import { LIMIT_MS, settle } from './settle.ts';
import { Tablet } from './tablet.ts';
import { Witness } from './witness.ts';

export interface NetworkOptions {
  readonly seeds: readonly number[];
  /** Seeds ridden out side by side, each with stations and sessions of its own. */
  readonly atOnce: number;
  /** Ends of connections that are half open must find out by themselves: takes half a minute. */
  readonly nobodyHangsUp?: boolean;
  readonly onSeed?: (report: SeedReport) => void;
}

export interface SeedReport {
  readonly seed: number;
  readonly entered: number;
  /** Of these, by a station that was cut off at that moment. */
  readonly inPartition: number;
  readonly reloads: number;
  readonly network: Counts;
  readonly breaks: readonly string[];
}

const CREW: readonly WritingRole[] = ['desk', 'measuring', 'measuring', 'bench'];
const SESSIONS = 2;
/** Entries of a storm, unless it takes longer than this. */
const ENOUGH = 60;
const MOST_MS = 15_000;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** What is entered comes from one stock, so that a seed says the same alone and among others. */
const DRAFTS = 1;

export async function networkStorm(options: NetworkOptions): Promise<SeedReport[]> {
  becomeBrowser();
  const shop = await serve({ args: ['--log-level', 'fatal'] });
  try {
    const desk = await shop.station(['desk'], 'the first desk');
    const drafts = new Drafts(DRAFTS);
    const left = [...options.seeds];
    const reports: SeedReport[] = [];
    const ride = async () => {
      const crew: Station[] = [];
      for (const role of CREW) crew.push(await Station.pair(shop.url, await desk.code([role]), role));
      for (let seed = left.shift(); seed !== undefined; seed = left.shift()) {
        const storm = new NetworkStorm(seed, shop, crew, drafts, options.nobodyHangsUp ?? false);
        const report = await storm.run();
        reports.push(report);
        options.onSeed?.(report);
      }
    };
    await Promise.all(Array.from({ length: Math.min(options.atOnce, left.length) }, ride));
    return reports;
  } finally {
    await shop.close();
  }
}

class NetworkStorm {
  readonly #seed: number;
  readonly #shop: { readonly url: string; readonly data: string };
  readonly #crew: readonly Station[];
  readonly #drafts: Drafts;
  readonly #nobodyHangsUp: boolean;
  readonly #random: Random;
  readonly #witness = new Witness();
  readonly #breaks: Breaks = noBreaks();
  readonly #proxies: Proxy[] = [];
  readonly #tablets: Tablet[] = [];
  readonly #cut = new Set<Tablet>();
  #inPartition = 0;

  constructor(
    seed: number,
    shop: { readonly url: string; readonly data: string },
    crew: readonly Station[],
    drafts: Drafts,
    nobodyHangsUp: boolean,
  ) {
    this.#seed = seed;
    this.#shop = shop;
    this.#crew = crew;
    this.#drafts = drafts;
    this.#nobodyHangsUp = nobodyHangsUp;
    this.#random = randomFrom(seed);
  }

  async run(): Promise<SeedReport> {
    const sessions = Array.from({ length: SESSIONS }, () => sessionId(this.#random));
    try {
      await this.#connect();
      await this.#open(sessions);
      await this.#storm();
      await this.#calm(sessions);
    } catch (error) {
      this.#breaks.other.push(`seed ${this.#seed}: ${String(error)}`);
    } finally {
      for (const tablet of this.#tablets) tablet.close();
      for (const proxy of this.#proxies) await proxy.close();
    }
    return this.#report();
  }

  async #connect(): Promise<void> {
    const crossing = new Crossing();
    for (const [i, station] of this.#crew.entries()) {
      const proxy = await Proxy.to(this.#shop.url, 1_000_003 * this.#seed + 101 * i, crossing);
      this.#proxies.push(proxy);
      this.#tablets.push(
        Tablet.of(station, {
          url: proxy.url,
          role: CREW[i]!,
          name: `${CREW[i]} ${i + 1}`,
          random: randomFrom(this.#seed + 1 + i),
          drafts: this.#drafts,
          witness: this.#witness,
        }),
      );
    }
  }

  async #open(sessions: readonly string[]): Promise<void> {
    const [desk] = this.#tablets;
    for (const session of sessions) desk!.begin(session);
    for (const session of sessions) await until(() => desk!.saved(session).length > 0, session, LIMIT_MS);
    for (const tablet of this.#tablets) for (const session of sessions) tablet.join(session);
    const ready = () =>
      this.#tablets.every(({ sessions }) => [...sessions.values()].every(({ ready }) => ready));
    await until(ready, 'every station to know its sessions', LIMIT_MS);
  }

  /** For a while, and until enough has been entered: on a busy machine hands are slower. */
  async #storm(): Promise<void> {
    const started = performance.now();
    const leastMs = this.#random.between(800, 1_500);
    const goesOn = () => {
      const ms = performance.now() - started;
      return ms < leastMs || (ms < MOST_MS && this.#entered() < ENOUGH);
    };
    for (const proxy of this.#proxies) proxy.storm(weatherFrom(this.#random));
    const work = this.#tablets.map(async (tablet) => {
      let before = entries(tablet);
      await tablet.work(
        () => {
          const now = entries(tablet);
          if (this.#cut.has(tablet)) this.#inPartition += now - before;
          before = now;
          return goesOn();
        },
        () => 100,
      );
    });
    while (goesOn()) {
      await pause(this.#random.between(50, 400));
      this.#disturb();
    }
    await Promise.all(work);
  }

  /** One more station is cut off, or one comes back, or a page is loaded anew. */
  #disturb(): void {
    const i = Math.floor(this.#random.between(0, this.#tablets.length));
    const [tablet, proxy] = [this.#tablets[i]!, this.#proxies[i]!];
    if (this.#random.next() < 0.2) return tablet.reload();
    if (this.#cut.delete(tablet)) return proxy.heal({ hangUp: !this.#nobodyHangsUp });
    this.#cut.add(tablet);
    proxy.cut(this.#random.pick(['reset', 'silent']));
  }

  async #calm(sessions: readonly string[]): Promise<void> {
    for (const proxy of this.#proxies) {
      proxy.calm();
      proxy.heal({ hangUp: !this.#nobodyHangsUp });
    }
    const disk = await settle({
      data: this.#shop.data,
      sessions: new Map(sessions.map((session) => [session, this.#tablets])),
      when: `seed ${this.#seed}`,
      breaks: this.#breaks,
    });
    const ledger = new Ledger();
    for (const tablet of this.#tablets) ledger.note(tablet);
    checkDisk(disk, sessions, this.#witness, ledger, this.#breaks);
    checkAllArrived(this.#tablets, disk, this.#breaks);
  }

  #entered(): number {
    return this.#tablets.reduce((sum, tablet) => sum + entries(tablet), 0);
  }

  #report(): SeedReport {
    const sum = (of: (tablet: Tablet) => number) => this.#tablets.reduce((all, one) => all + of(one), 0);
    const network = noCounts();
    for (const { counts } of this.#proxies)
      for (const name of Object.keys(network) as (keyof Counts)[]) network[name] += counts[name];
    return {
      seed: this.#seed,
      entered: this.#entered(),
      inPartition: this.#inPartition,
      reloads: sum(({ reloads }) => reloads),
      network,
      breaks: allBreaks(this.#breaks),
    };
  }
}

const entries = ({ entered }: Tablet): number =>
  [...entered.values()].reduce((sum, facts) => sum + facts.size, 0);

/** Some networks are slow, some lose much, some do a little of everything. */
const weatherFrom = (random: Random): Weather => ({
  delayMs: random.pick([0, 5, 30, 80]),
  split: random.pick([0, 0.2, 0.6]),
  drop: random.pick([0, 0.01, 0.04]),
  deaf: random.pick([0, 0.01, 0.02]),
  orphan: random.pick([0, 0.01, 0.03]),
  hold: random.pick([0, 0.05, 0.2]),
});
