/** Sessions that stand at a given point when a test begins: entered by a program, through the front door. */
import { randomBytes } from 'node:crypto';
import type { Fact, Payload, Role } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import { Station } from '../../demo/station.ts';
import { DUAL, SINGLE, Story, story, withMarks } from './facts.ts';
import type { TestServer } from './server.ts';

export interface OpenJob {
  readonly session: string;
  readonly ticket: string;
  readonly room: Room;
}

/** Taken in, boots described, nothing ready. */
export const takenIn = (): Story =>
  new Story().open().boot('left', withMarks(DUAL, 1)).boot('right', withMarks(SINGLE, 1));
/** Both boots ready: the gaps can be read. */
export const readied = (): Story => story(withMarks(DUAL, 1), withMarks(SINGLE, 1));
/** Both cuffs read: the left needs outward, the right inward. */
export const wasRead = (): Story => {
  const told = readied();
  told.read('left', 14, 6);
  told.read('right', 5, 13);
  return told;
};

/** Opens sessions for one shop, each under a ticket of its own. */
export class Opener {
  readonly #station: Station;
  #count = 0;

  private constructor(station: Station) {
    this.#station = station;
  }

  /** By the console's own code for a shop of one person; it is good once. */
  static async of(shop: TestServer): Promise<Opener> {
    const all = shop.shownCodes().find(({ roles }) => roles.join() === 'desk,measuring,bench');
    if (!all) throw new Error('the console shows no code for all three stations');
    return new Opener(await Station.pair(shop.url, all.code, 'the opener'));
  }

  /** What the shop works by, for sessions that are opened from now on. */
  async settings(values: Readonly<Record<string, number>>): Promise<void> {
    await this.#station.request('POST', '/api/corner/pin', { pin: '271828', again: '271828' });
    await this.#station.request('PUT', '/api/corner/settings', values);
  }

  /** The facts of `told` under ids of the program's own, so it must not name any by id. */
  async open(name: string, told: Story): Promise<OpenJob> {
    this.#count += 1;
    const ticket = `${this.#station.me.number}-${this.#count}`;
    const clientRef = `p${randomBytes(8).toString('hex')}`;
    await this.#station.request('PUT', `/api/people/${clientRef}`, { name });
    const session = randomBytes(16).toString('hex');
    const room = await this.#station.enter(session);
    for (const fact of told.facts) {
      const { id: _id, kind, at: _at, by, basis: _basis, ...payload } = fact as Fact & { basis?: unknown };
      const opened = kind === 'session.opened' ? { ticket, clientRef } : {};
      await room.add(by.role as Exclude<Role, 'server'>, kind, { ...payload, ...opened } as Payload<
        typeof kind
      >);
    }
    return { session, ticket, room };
  }
}
