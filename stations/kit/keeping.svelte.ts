/** What this device keeps, as its pages see it: whether it can, whether this tab may, and what it still has to send. */
import { PhotoQueue } from './photo/queue.svelte.ts';
import { DeviceStore } from './store/device.ts';
import type { Health } from './store/device.ts';
import { LastKnown } from './store/known.ts';
import { Outbox } from './store/outbox.ts';
import { Slip } from './store/slip.ts';
import { ownStore } from './store/tab.ts';
import type { Ownership } from './store/tab.ts';

export interface RefusedThere {
  readonly session: string;
  readonly count: number;
}

export class Keeping {
  readonly outbox: Outbox;
  readonly known: LastKnown;
  readonly photos: PhotoQueue;
  readonly #device: DeviceStore;
  readonly #giveUp: () => void;
  #health = $state<Health>('well');
  #ownership = $state<Ownership>('asking');
  #refused = $state.raw<readonly RefusedThere[]>([]);

  /** `writes`: this page's work makes entries. `onOwner`: this tab owns them from now on. */
  constructor(writes: boolean, onOwner: () => void) {
    this.#device = new DeviceStore((health) => (this.#health = health));
    this.outbox = new Outbox(this.#device, new Slip(localStorage));
    this.known = new LastKnown(this.#device);
    this.photos = new PhotoQueue(this.#device);
    if (writes) this.photos.start();
    this.#giveUp = writes
      ? ownStore(this.#device, (ownership) => {
          this.#ownership = ownership;
          if (ownership !== 'owner') return;
          // Where it fails, the health says so, and each entry then asks by itself.
          void this.outbox
            .begin()
            .catch(() => undefined)
            .then(onOwner);
        })
      : () => undefined;
    // Asked once, so that a browser short of room does not throw away what waits here. Some ask the person.
    if (writes) void (navigator.storage as StorageManager | undefined)?.persist?.().catch(() => undefined);
  }

  get health(): Health {
    return this.#health;
  }

  get ownership(): Ownership {
    return this.#ownership;
  }

  /** This tab may make entries and send what waits. */
  get owns(): boolean {
    return this.#ownership === 'owner';
  }

  /** Sessions of which the shop did not take something. */
  get refused(): readonly RefusedThere[] {
    return this.#refused;
  }

  async countRefused(): Promise<void> {
    const counts = new Map<string, number>();
    for (const { session } of await this.outbox.all('refused').catch(() => []))
      counts.set(session, (counts.get(session) ?? 0) + 1);
    this.#refused = [...counts].map(([session, count]) => ({ session, count }));
  }

  /** Sessions with entries that wait, or that were saved in a generation before the session's own of today. */
  async due(generationOf: (session: string) => number): Promise<string[]> {
    const waiting = await this.outbox.all('waiting').catch(() => []);
    const saved = await this.outbox.all('saved').catch(() => []);
    const older = saved.filter(({ session, generation = 1 }) => generation < generationOf(session));
    return [...new Set([...waiting, ...older].map(({ session }) => session))];
  }

  /** Once all writes have ended: whether all that waits here outlives this page. */
  async isKept(): Promise<boolean> {
    await this.#device.settled();
    return this.outbox.homeless === 0;
  }

  close(): void {
    this.#giveUp();
    this.outbox.close();
    this.photos.close();
  }
}
