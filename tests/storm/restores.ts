/**
 * A backup in the middle of a burst from twelve stations, later entries and sessions, a kill, and the restore of that
 * backup: the same stations come back, in any order, to a server that knows less than they do.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomFrom } from '../../demo/random.ts';
import type { Random } from '../../demo/random.ts';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { until } from '../helpers/until.ts';
import { allBreaks, checkAllArrived, checkDisk, Ledger, noBreaks } from './check.ts';
import { killUnder, pairCrew } from './crew.ts';
import type { Line } from './crew.ts';
import { diskAfterDeath } from './disk.ts';
import { sessionId } from './drafts.ts';
import { becomeBrowser } from './page.ts';
import { freePort } from './port.ts';
import { LIMIT_MS, settle } from './settle.ts';
import type { Tablet } from './tablet.ts';
import { Witness } from './witness.ts';

export interface RestoreReport {
  readonly seed: number;
  readonly sessions: number;
  /** Of these, opened after the backup. */
  readonly young: number;
  readonly entered: number;
  /** Facts that a station was told are saved before the kill. */
  readonly acknowledged: number;
  /** Of these, not in the backup. */
  readonly later: number;
  readonly reloads: number;
  readonly lost: number;
  readonly twice: number;
  readonly breaks: readonly string[];
}

const TOP = fileURLToPath(new URL('../..', import.meta.url));
/** Sessions before the backup and after it, and the stations in each beside the desk that opened it. */
const OLD = 3;
const YOUNG = 2;
const PARTNERS = 4;
/** Milliseconds between two entries of one station, at most. */
const HURRY_MS = 250;
/** Entries before the backup is asked for, while it is made, then until the kill (as many again), and while the server is away. */
const BURST = { before: 60, later: 90, away: 40 } as const;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

export async function restoreStorm(seed: number): Promise<RestoreReport> {
  becomeBrowser();
  const data = mkdtempSync(join(tmpdir(), 'fibula-storm-'));
  const copies = mkdtempSync(join(tmpdir(), 'fibula-copies-'));
  const storm = new RestoreStorm(seed, data, join(copies, 'shop.db'));
  try {
    return await storm.run();
  } finally {
    await storm.close();
    for (const directory of [data, copies]) rmSync(directory, { recursive: true, force: true });
  }
}

class RestoreStorm {
  readonly #seed: number;
  readonly #data: string;
  readonly #copy: string;
  readonly #random: Random;
  readonly #witness = new Witness();
  readonly #ledger = new Ledger();
  readonly #breaks = noBreaks();
  readonly #open = new Map<string, readonly Tablet[]>();
  #lines: readonly Line[] = [];
  #server: ServerProcess | null = null;
  #port = 0;
  #acknowledged = 0;
  #later = 0;
  #over = false;
  /** Entries in all at which the hands rest. */
  #most = 0;

  constructor(seed: number, data: string, copy: string) {
    this.#seed = seed;
    this.#data = data;
    this.#copy = copy;
    this.#random = randomFrom(seed);
  }

  get #tablets(): readonly Tablet[] {
    return this.#lines.map(({ tablet }) => tablet);
  }

  async run(): Promise<RestoreReport> {
    this.#port = await freePort();
    this.#server = await this.#start();
    this.#lines = await pairCrew(this.#server, this.#seed, this.#witness);
    await this.#openSessions(OLD);
    const work = this.#tablets.map((tablet) => this.#work(tablet));
    try {
      this.#most = BURST.before;
      await this.#burst();
      // It goes on while the backup is made.
      this.#most += BURST.later;
      await this.#command('backup', this.#copy);
      await this.#openSessions(YOUNG);
      this.#most += BURST.later;
      await this.#burst();
      await this.#loseTheServer();
      this.#most += BURST.away;
      await this.#comeBack();
    } finally {
      this.#over = true;
      await Promise.all(work);
    }
    await this.#agree();
    return this.#report();
  }

  async close(): Promise<void> {
    for (const { tablet, cable } of this.#lines) {
      tablet.close();
      await cable.close();
    }
    await this.#server?.stop();
  }

  #entered(): number {
    return this.#tablets.reduce(
      (all, { entered }) => [...entered.values()].reduce((sum, facts) => sum + facts.size, all),
      0,
    );
  }

  /** Enters until the storm is over, and rests once enough has been entered for now. */
  async #work(tablet: Tablet): Promise<void> {
    while (!this.#over) {
      await tablet.work(
        () => !this.#over && this.#entered() < this.#most,
        () => HURRY_MS,
      );
      await pause(20);
    }
  }

  /** Until nearly all that may be entered by now has been. */
  async #burst(): Promise<void> {
    const enough = this.#most - this.#random.between(0, 30);
    await until(() => this.#entered() >= enough, 'the hands to enter', LIMIT_MS);
  }

  #start(): Promise<ServerProcess> {
    const args = ['--plain', '--host', '127.0.0.1', '--port', String(this.#port), '--log-level', 'warn'];
    return startServer(this.#data, args);
  }

  /** The operator's own command, beside this process: its connections must stay alive meanwhile. */
  #command(name: 'backup' | 'restore', ...args: readonly string[]): Promise<void> {
    const program = [`server/setup/${name}.mjs`, ...args, '--data', this.#data];
    return new Promise((resolve, reject) =>
      execFile(process.execPath, program, { cwd: TOP, timeout: 110_000 }, (error, _stdout, stderr) =>
        error ? reject(new Error(`${name}: ${stderr}`)) : resolve(),
      ),
    );
  }

  async #openSessions(count: number): Promise<void> {
    const desks = this.#tablets.filter(({ role }) => role === 'desk');
    for (let i = 0; i < count; i++) {
      const desk = this.#random.pick(desks);
      const session = sessionId(this.#random);
      desk.begin(session);
      await until(() => desk.saved(session).length > 0, `${session} to be open`, LIMIT_MS);
      const crew = new Set([desk]);
      while (crew.size < 1 + PARTNERS) crew.add(this.#random.pick(this.#tablets));
      for (const tablet of crew) tablet.join(session);
      this.#open.set(session, [...crew]);
    }
  }

  async #loseTheServer(): Promise<void> {
    const server = this.#server!;
    this.#server = null;
    await killUnder(server, this.#tablets, this.#ledger);
    this.#acknowledged = this.#ledger.size;
    for (const { cable } of this.#lines) cable.pull();
    const dead = diskAfterDeath(this.#data);
    checkDisk(dead, this.#open.keys(), this.#witness, this.#ledger, this.#breaks);
    await this.#command('restore', this.#copy, '--replace');
    const restored = diskAfterDeath(this.#data).sessions;
    for (const [session, facts] of this.#ledger.saved) {
      const there = new Set(restored.get(session)?.facts.map(({ id }) => id));
      this.#later += [...facts.keys()].filter((id) => !there.has(id)).length;
    }
    this.#witness.beginAnew();
  }

  /** One line after the other, in any order; here and there a page is loaded anew before or after. */
  async #comeBack(): Promise<void> {
    const reloadMaybe = (tablet: Tablet) => {
      if (this.#random.next() < 0.15) tablet.reload();
    };
    for (const tablet of this.#tablets) reloadMaybe(tablet);
    this.#server = await this.#start();
    const out = [...this.#lines];
    while (out.length > 0) {
      const [line] = out.splice(Math.floor(this.#random.between(0, out.length)), 1);
      line!.cable.plugIn();
      await pause(this.#random.between(0, 200));
      reloadMaybe(line!.tablet);
    }
  }

  async #agree(): Promise<void> {
    // A page that was loaded anew before it knew anything of a session asks until the desk has opened it again.
    const found = () =>
      this.#tablets.every(({ sessions }) => [...sessions.values()].every(({ state }) => state !== 'gone'));
    await until(found, `every session to be found again, seed ${this.#seed}`, LIMIT_MS).catch(
      () => undefined,
    );
    const disk = await settle({
      data: this.#data,
      sessions: this.#open,
      when: `after the restore of seed ${this.#seed}`,
      breaks: this.#breaks,
    });
    for (const tablet of this.#tablets) this.#ledger.note(tablet);
    checkDisk(disk, this.#open.keys(), this.#witness, this.#ledger, this.#breaks);
    checkAllArrived(this.#tablets, disk, this.#breaks);
  }

  #report(): RestoreReport {
    const sum = (of: (tablet: Tablet) => number) => this.#tablets.reduce((all, one) => all + of(one), 0);
    return {
      seed: this.#seed,
      sessions: this.#open.size,
      young: YOUNG,
      entered: this.#entered(),
      acknowledged: this.#acknowledged,
      later: this.#later,
      reloads: sum(({ reloads }) => reloads),
      lost: this.#breaks.lost.length,
      twice: this.#breaks.twice.length,
      breaks: allBreaks(this.#breaks),
    };
  }
}
