/** Two honest stations that work in one session all the while: what one enters is saved, and the other sees it. */
import { isDeepStrictEqual } from 'node:util';
import Database from 'better-sqlite3';
import { join } from 'node:path';
import * as Y from 'yjs';
import type { Fact, Payload } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';

export class Honest {
  readonly session: string;
  readonly #saved: string[] = [];
  readonly #desk: Room;
  readonly #floor: Room;

  private constructor(session: string, desk: Room, floor: Room) {
    this.session = session;
    this.#desk = desk;
    this.#floor = floor;
  }

  static async open(session: string, desk: Station, measuring: Station): Promise<Honest> {
    const atDesk = await desk.enter(session);
    const opened = await atDesk.add('desk', 'session.opened', {
      ticket: '1-1',
      clientRef: 'c1',
      service: 'cuffs',
    });
    const honest = new Honest(session, atDesk, await measuring.enter(session));
    honest.#saved.push(opened);
    return honest;
  }

  get saved(): number {
    return this.#saved.length;
  }

  /** Each enters one fact and sees the other's. Throws when one is not saved, or not seen, within its time. */
  async turn(): Promise<void> {
    const level = { crossDeg: (this.#saved.length % 20) / 10, alongDeg: 0 } as Payload<'floor.checked'>;
    const reading = await this.#floor.add('measuring', 'floor.checked', level);
    await this.#desk.knows([reading]);
    const note = await this.#desk.add('desk', 'home.checked', { note: `turn ${this.#saved.length}` });
    await this.#floor.knows([note]);
    this.#saved.push(reading, note);
  }

  /** What is wrong at the end, the server having stopped on `data`; both stations know all that was saved. */
  async faults(data: string): Promise<string[]> {
    const disk = factsOnDisk(data, this.session);
    const ids = disk.map(({ id }) => id);
    const missing = this.#saved.filter((id) => !ids.includes(id));
    return [
      ...missing.map((id) => `fact ${id} was saved and is not on disk`),
      ...(new Set(ids).size === ids.length ? [] : ['a fact is on disk twice']),
      ...([this.#desk, this.#floor] as const)
        .filter(({ facts }) => !isDeepStrictEqual(facts, disk))
        .map(
          ({ facts }) => `a station holds ${facts.length} facts, the disk ${disk.length}, and they differ`,
        ),
    ];
  }

  /** Resolves when each station has heard of all that the session holds. */
  async settle(): Promise<void> {
    await this.turn();
    const all = [...this.#desk.facts, ...this.#floor.facts].map(({ id }) => id);
    await Promise.all([this.#desk.knows(all), this.#floor.knows(all)]);
  }

  close(): void {
    this.#desk.close();
    this.#floor.close();
  }
}

/** A session's facts as its rows make them, read as another program would. */
function factsOnDisk(data: string, session: string): Fact[] {
  const db = new Database(join(data, 'fibula.db'), { readonly: true });
  try {
    const rows = db
      .prepare<[string], { bytes: Buffer }>(
        'SELECT bytes FROM updates JOIN documents ON documents.id = document WHERE session = ? ORDER BY n',
      )
      .all(session);
    const doc = new Y.Doc();
    for (const { bytes } of rows) Y.applyUpdate(doc, bytes);
    return doc.getArray<Fact>('facts').toArray();
  } finally {
    db.close();
  }
}
