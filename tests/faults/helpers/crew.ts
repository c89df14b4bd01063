/** Four stations in two sessions at a server that will not live long, and what they were shown. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { randomFrom } from '../../../demo/random.ts';
import { operatorCode, startServer } from '../../../demo/serve.ts';
import type { ServerProcess } from '../../../demo/serve.ts';
import { Station } from '../../../demo/station.ts';
import { until } from '../../helpers/until.ts';
import { checkDisk, Ledger, noBreaks } from '../../storm/check.ts';
import type { Breaks } from '../../storm/check.ts';
import { diskAfterDeath } from '../../storm/disk.ts';
import { Drafts, sessionId } from '../../storm/drafts.ts';
import { becomeBrowser } from '../../storm/page.ts';
import { freePort } from '../../storm/port.ts';
import { LIMIT_MS, settle } from '../../storm/settle.ts';
import { Tablet } from '../../storm/tablet.ts';
import { Witness } from '../../storm/witness.ts';
import type { Fault } from './fault.ts';

const ROLES = ['desk', 'measuring', 'measuring', 'bench'] as const;

export class Crew {
  readonly data = mkdtempSync(join(tmpdir(), 'fibula-faults-'));
  readonly witness = new Witness();
  readonly ledger = new Ledger();
  readonly tablets: Tablet[] = [];
  readonly sessions: readonly string[];
  readonly #seed: number;
  #port = 0;
  #server: ServerProcess | null = null;

  constructor(seed: number) {
    becomeBrowser();
    this.#seed = seed;
    const random = randomFrom(seed);
    this.sessions = [sessionId(random), sessionId(random)];
  }

  /** Starts the server, on the same data and port each time; with a fault, or as it is. */
  async serve(fault?: Fault): Promise<void> {
    this.#port ||= await freePort();
    const args = ['--plain', '--host', '127.0.0.1', '--port', String(this.#port), '--log-level', 'fatal'];
    const program = fault && {
      file: 'tests/faults/helpers/dying-server.ts',
      env: { FIBULA_FAULT: JSON.stringify(fault) },
    };
    this.#server = await startServer(this.data, args, LIMIT_MS, program);
    if (this.tablets.length === 0) await this.#pair();
  }

  async #pair(): Promise<void> {
    const { url } = this.#server!;
    const desk = await Station.pair(url, operatorCode(this.data, ['desk']), 'the first desk');
    const drafts = new Drafts(this.#seed);
    for (const [i, role] of ROLES.entries()) {
      const code = await desk.code([role]);
      const random = randomFrom(this.#seed + 1 + i);
      const { witness } = this;
      this.tablets.push(
        await Tablet.pair({ url, code, role, name: `${role} ${i}`, random, drafts, witness }),
      );
    }
    for (const session of this.sessions) this.tablets[0]!.begin(session);
    for (const session of this.sessions)
      await until(() => this.tablets[0]!.saved(session).length > 0, 'the session to be open', LIMIT_MS);
    for (const tablet of this.tablets) for (const session of this.sessions) tablet.join(session);
  }

  /** All stations enter things until `enough`. */
  async work(enough: () => boolean, what: string): Promise<void> {
    let goesOn = true;
    const work = this.tablets.map((tablet) =>
      tablet.work(
        () => goesOn,
        () => 60,
      ),
    );
    try {
      await until(enough, what, LIMIT_MS);
    } finally {
      goesOn = false;
      await Promise.all(work);
    }
  }

  get dead(): boolean {
    return this.#server?.process.signalCode === 'SIGKILL';
  }

  kill(): void {
    this.#server!.process.kill('SIGKILL');
  }

  get saved(): number {
    for (const tablet of this.tablets) this.ledger.note(tablet);
    return this.ledger.size;
  }

  /** Once the server is dead: what the stations know by now, held against its disk. */
  async afterDeath(): Promise<Breaks> {
    await until(() => this.dead, 'the server to be dead', LIMIT_MS);
    const held = this.tablets.flatMap((tablet) => [...tablet.sockets]);
    await until(
      () => held.every((socket) => socket.readyState === socket.CLOSED),
      'sockets to end',
      LIMIT_MS,
    );
    return this.#check(diskAfterDeath(this.data));
  }

  /** Once everything has come to rest: what stations and disk say. */
  async atRest(when: string): Promise<Breaks> {
    const breaks = noBreaks();
    const sessions = new Map(this.sessions.map((session) => [session, this.tablets]));
    const disk = await settle({ data: this.data, sessions, when, breaks });
    const { lost, twice, shownOnly, other } = this.#check(disk);
    return { lost, twice, shownOnly, other: [...breaks.other, ...other] };
  }

  async close(): Promise<void> {
    for (const tablet of this.tablets) tablet.close();
    await this.#server?.stop();
    rmSync(this.data, { recursive: true, force: true });
  }

  #check(disk: ReturnType<typeof diskAfterDeath>): Breaks {
    const breaks = noBreaks();
    for (const tablet of this.tablets) this.ledger.note(tablet);
    checkDisk(disk, this.sessions, this.witness, this.ledger, breaks);
    return breaks;
  }
}
