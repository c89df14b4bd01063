/**
 * The load: a process of its own that plays all stations of all sessions against one server, and times them by its
 * own clock. It is sent a `Task` and sends back what it measured.
 */
import { performance } from 'node:perf_hooks';
import * as Y from 'yjs';
import type { Fact } from '../../../../core/index.ts';
import { randomFrom } from '../../../outside/random.ts';
import { Client } from './client.ts';
import { entryOf, opening, ROLES, sessionFacts } from './facts.ts';
import { quantile } from './figures.ts';
import { speechOf } from './speech.ts';
import type { Badge, ServerName, Speech } from './speech.ts';
import { cpuS, rssMb } from './usage.ts';

export interface Task {
  readonly server: ServerName;
  readonly url: string;
  readonly pid: number;
  /** One for each role; empty where nobody asks. */
  readonly badges: readonly Badge[];
  readonly seed: number;
  readonly what:
    | { readonly do: 'trickle'; readonly sessions: number; readonly seconds: number }
    | { readonly do: 'burst'; readonly sessions: number; readonly entries: number }
    | {
        readonly do: 'hold';
        readonly sessions: readonly number[];
        /** Between the last entry and the look at the memory. */
        readonly settleMs: number;
        readonly cold: number;
      };
}

export interface Flow {
  readonly facts: number;
  readonly seconds: number;
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly cpuSPer1000: number;
}
export interface Held {
  /** Resident memory with as many sessions open, millions of bytes. */
  readonly rssMb: readonly { readonly sessions: number; readonly mb: number }[];
  /** Null where nobody answers what it holds. */
  readonly coldP50Ms: number | null;
}

/** Before what is counted: programs are slow until they are warm. */
const WARM_MS = 2_000;
const AT_ONCE = 20;

const pause = (ms: number) => new Promise<void>((resolve) => void setTimeout(resolve, ms));
const idOf = (random: ReturnType<typeof randomFrom>) =>
  Array.from({ length: 8 }, () => Math.floor(random.between(0, 65_536)).toString(16).padStart(4, '0')).join(
    '',
  );

class Load {
  readonly #task: Task;
  readonly #random;
  readonly #sent = new Map<string, number>();
  #latencies: number[] = [];
  #count = 0;

  constructor(task: Task) {
    this.#task = task;
    this.#random = randomFrom(task.seed);
  }

  #speech(which: number): Speech {
    return speechOf(this.#task.server, this.#task.badges[which] ?? null);
  }
  #device(which: number): string {
    return this.#task.badges[which]?.device ?? `station-${which}`;
  }

  #client(session: string, which: number): Promise<Client> {
    return Client.open({
      speech: this.#speech(which),
      url: this.#task.url,
      session,
      random: Math.floor(this.#random.between(0, 2 ** 32)),
      onfacts: (facts) => this.#heard(facts),
    });
  }

  #heard(facts: readonly Fact[]): void {
    const now = performance.now();
    for (const { id } of facts) {
      const from = this.#sent.get(id);
      if (from !== undefined) this.#latencies.push(now - from);
    }
  }

  /** Sessions with three stations in each, opened by the desk. */
  async #shop(sessions: number): Promise<Client[][]> {
    const shop: Client[][] = [];
    for (let i = 0; i < sessions; i++) {
      const id = idOf(this.#random);
      const stations: Client[] = [];
      for (const which of ROLES.keys()) stations.push(await this.#client(id, which));
      stations[0]!.add(opening(this.#device(0)));
      await allHave(stations, 1);
      shop.push(stations);
    }
    return shop;
  }

  #enter(client: Client, which: number): void {
    const id = `e${(this.#count += 1)}`;
    this.#sent.set(id, performance.now());
    client.add(entryOf(ROLES[which]!, id, this.#device(which)));
  }

  #forget(): void {
    this.#sent.clear();
    this.#latencies = [];
  }

  #flow(facts: number, fromMs: number, fromCpuS: number): Flow {
    return {
      facts,
      seconds: (performance.now() - fromMs) / 1000,
      p50Ms: quantile(this.#latencies, 0.5),
      p99Ms: quantile(this.#latencies, 0.99),
      cpuSPer1000: ((cpuS(this.#task.pid) - fromCpuS) / facts) * 1000,
    };
  }

  /** Each station enters one a second, at a moment of its own. */
  async trickle(sessions: number, seconds: number): Promise<Flow> {
    const shop = await this.#shop(sessions);
    const timers: NodeJS.Timeout[] = [];
    for (const stations of shop)
      for (const [which, client] of stations.entries())
        timers.push(
          setTimeout(
            () => {
              this.#enter(client, which);
              timers.push(setInterval(() => this.#enter(client, which), 1000));
            },
            this.#random.between(0, 1000),
          ),
        );
    await pause(WARM_MS);
    this.#forget();
    const before = this.#count;
    const [fromMs, fromCpuS] = [performance.now(), cpuS(this.#task.pid)];
    await pause(seconds * 1000);
    for (const timer of timers) clearTimeout(timer);
    const flow = this.#flow(this.#count - before, fromMs, fromCpuS);
    await everywhere(shop);
    return flow;
  }

  /** Each station has a backlog, one update an entry, and sends it at once. */
  async burst(sessions: number, entries: number): Promise<Flow> {
    const shop = await this.#shop(sessions);
    this.#forget();
    const [fromMs, fromCpuS] = [performance.now(), cpuS(this.#task.pid)];
    for (let i = 0; i < entries; i++)
      for (const stations of shop)
        for (const [which, client] of stations.entries()) this.#enter(client, which);
    await everywhere(shop);
    return this.#flow(sessions * ROLES.length * entries, fromMs, fromCpuS);
  }

  /** Sessions of two hundred entries by three authors, held open by one socket each. */
  async hold(steps: readonly number[], settleMs: number, cold: number): Promise<Held> {
    const rss: { sessions: number; mb: number }[] = [];
    const updates = sessionUpdates(this.#device(0), (random) => this.#speech(0).clientId(random));
    const open: Client[] = [];
    const ids: string[] = [];
    for (const sessions of steps) {
      while (open.length < sessions) {
        const some = Array.from({ length: Math.min(AT_ONCE, sessions - open.length) }, () =>
          idOf(this.#random),
        );
        ids.push(...some);
        open.push(...(await Promise.all(some.map((id) => this.#fill(id, updates)))));
      }
      await pause(settleMs);
      rss.push({ sessions, mb: rssMb(this.#task.pid) });
    }
    const times: number[] = [];
    for (const id of this.#speech(1).answers ? ids.slice(0, cold) : []) {
      const from = performance.now();
      const client = await this.#client(id, 1);
      // Ours adds what the shop has learned of such boots.
      if (client.facts < sessionFacts('').length) throw new Error(`a session of ${client.facts} entries`);
      times.push(performance.now() - from);
      client.close();
    }
    for (const client of open) client.close();
    return { rssMb: rss, coldP50Ms: times.length > 0 ? quantile(times, 0.5) : null };
  }

  async #fill(session: string, updates: readonly Uint8Array[]): Promise<Client> {
    const client = await this.#client(session, 0);
    for (const update of updates) client.send(update);
    if (this.#speech(0).answers) await client.settled();
    return client;
  }
}

/** Three authors by turns, some seventeen entries each time: what a session is made of. */
function sessionUpdates(station: string, clientId: (random: number) => number): Uint8Array[] {
  const AUTHORS = 3;
  const TURNS = 12;
  const facts = sessionFacts(station);
  const updates: Uint8Array[] = [];
  const doc = new Y.Doc();
  doc.on('update', (bytes: Uint8Array) => updates.push(bytes));
  const length = Math.ceil(facts.length / TURNS);
  for (let turn = 0; turn < TURNS; turn++) {
    doc.clientID = clientId(1 + (turn % AUTHORS));
    doc.getArray('facts').push(facts.slice(turn * length, (turn + 1) * length));
  }
  return updates;
}

const allHave = (clients: readonly Client[], facts: number) =>
  Promise.all(clients.map((client) => client.until(() => client.facts >= facts, `${facts} entries`)));

/** All stations of a session have what any of them entered. */
async function everywhere(shop: readonly (readonly Client[])[]): Promise<void> {
  await Promise.all(
    shop.map((stations) =>
      allHave(
        stations,
        stations.reduce((sum, { own }) => sum + own, 0),
      ),
    ),
  );
  for (const client of shop.flat()) client.close();
}

function run({ what }: Task, load: Load): Promise<Flow | Held> {
  switch (what.do) {
    case 'trickle':
      return load.trickle(what.sessions, what.seconds);
    case 'burst':
      return load.burst(what.sessions, what.entries);
    case 'hold':
      return load.hold(what.sessions, what.settleMs, what.cold);
    default:
      return what satisfies never;
  }
}

process.once('message', (task: Task) => {
  run(task, new Load(task)).then(
    (measured) => process.send!({ measured }, () => process.exit(0)),
    (error: Error) => process.send!({ error: error.stack }, () => process.exit(1)),
  );
});
