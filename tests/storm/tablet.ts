/**
 * One station of a storm: paired by the front door, working with the stations' own session code and device store,
 * over a line of its own that may fail.
 */
import { IDBFactory } from 'fake-indexeddb';
import type { WebSocket } from 'ws';
import type { Fact } from '../../core/index.ts';
import type { Random } from '../../demo/random.ts';
import { Station } from '../../demo/station.ts';
import { syncUrl } from '../../stations/kit/link.ts';
import { Session } from '../../stations/kit/session.ts';
import type { FactDraft } from '../../stations/kit/session.ts';
import { DeviceStore } from '../../stations/kit/store/device.ts';
import { LastKnown } from '../../stations/kit/store/known.ts';
import { Outbox } from '../../stations/kit/store/outbox.ts';
import { Slip } from '../../stations/kit/store/slip.ts';
import { plainStorage } from '../helpers/storage.ts';
import type { Drafts, WritingRole } from './drafts.ts';
import { inPage } from './page.ts';
import type { Page } from './page.ts';
import type { Witness } from './witness.ts';

/** States in which a station has been sent away for good. */
const ENDED: readonly string[] = ['gone', 'unpaired', 'forbidden', 'outdated'];

export interface TabletOptions {
  /** Where its page comes from: the server's address by way of its own line. */
  readonly url: string;
  readonly role: WritingRole;
  readonly name: string;
  readonly random: Random;
  readonly drafts: Drafts;
  readonly witness: Witness;
}

export class Tablet {
  readonly role: WritingRole;
  readonly name: string;
  readonly cookie: string;
  /** All that was ever entered here, by session and id; kept beside the station's own store, for comparing. */
  readonly entered = new Map<string, Map<string, Fact>>();
  reloads = 0;
  readonly #options: TabletOptions;
  readonly #station: Station;
  readonly #page: Page;
  /** The device's disk: outlives the page. */
  readonly #disk = new IDBFactory();
  readonly #slip = plainStorage();
  #device: DeviceStore;
  #outbox: Outbox;
  readonly #open = new Map<string, Session>();

  private constructor(station: Station, options: TabletOptions) {
    this.#station = station;
    this.#options = options;
    this.role = options.role;
    this.name = options.name;
    this.cookie = station.cookie;
    const { url: origin, witness } = options;
    this.#page = { origin, cookie: station.cookie, witness, sockets: new Set<WebSocket>() };
    this.#device = this.#openStore();
    this.#outbox = this.#openOutbox();
  }

  static async pair({ code, ...options }: TabletOptions & { readonly code: string }): Promise<Tablet> {
    return new Tablet(await Station.pair(options.url, code, options.name), options);
  }

  /** One that was paired before, with an empty store. */
  static of(station: Station, options: TabletOptions): Tablet {
    return new Tablet(station, options);
  }

  /** Sessions that its page has open. */
  get sessions(): ReadonlyMap<string, Session> {
    return this.#open;
  }

  /** The connections of its page that have not ended yet. */
  get sockets(): ReadonlySet<WebSocket> {
    return this.#page.sockets;
  }

  /** Opens a new session. Throws when the entry is not taken. */
  begin(session: string): void {
    const ticket = `${this.#station.me.number}-${this.entered.size + 1}`;
    this.join(session);
    this.#add(session, this.#options.drafts.opening(this.#options.random, ticket));
  }

  join(session: string): void {
    if (!this.#open.has(session)) this.#open.set(session, this.#show(session));
  }

  leave(session: string): void {
    this.#open.get(session)?.close();
    this.#open.delete(session);
  }

  /** One entry by chance into one of its sessions; into none while no session's beginning has arrived. */
  enter(): void {
    const { random, drafts } = this.#options;
    const ready = [...this.#open].filter(([, session]) => session.ready);
    if (ready.length === 0) return;
    const [id, session] = random.pick(ready);
    this.#add(id, drafts.next(random, this.role, session.facts));
  }

  /** Enters by chance, at random moments up to `mostMs` apart, until `goesOn` says no. */
  async work(goesOn: () => boolean, mostMs: () => number): Promise<void> {
    while (goesOn()) {
      const next = performance.now() + this.#options.random.between(0, mostMs());
      // In short steps, so that the end of the work need not be waited for.
      while (goesOn() && performance.now() < next) await new Promise((resolve) => setTimeout(resolve, 10));
      if (goesOn()) this.enter();
    }
  }

  /** The page goes and comes back: what it had in memory is lost, the device's store is not. */
  reload(): void {
    this.reloads += 1;
    const shown = [...this.#open.keys()];
    this.close();
    this.#device = this.#openStore();
    this.#outbox = this.#openOutbox();
    for (const session of shown) this.join(session);
  }

  close(): void {
    for (const session of this.#open.values()) session.close();
    this.#open.clear();
  }

  /** Those of its entries that it shows as saved now. */
  saved(session: string): string[] {
    const shown = this.#open.get(session);
    if (!shown) return [];
    const here = new Set(shown.facts.map(({ id }) => id));
    return [...(this.entered.get(session)?.keys() ?? [])].filter(
      (id) => here.has(id) && shown.stateOf(id) === 'saved',
    );
  }

  /** Entries that wait in the device's store or on their way into it, whether the page knows of them yet or not. */
  async waitingInStore(session: string): Promise<number> {
    const onTheWay = new Slip(this.#slip).left().filter((entered) => entered.session === session);
    const kept = await inPage(this.#page, () => this.#outbox.of(session));
    return onTheWay.length + kept.filter(({ state }) => state === 'waiting').length;
  }

  /** What no honest station may meet: it was sent away, an entry was refused, its store failed. */
  complaints(): string[] {
    return [...this.#open]
      .flatMap(([id, session]) => [
        ...(ENDED.includes(session.state) ? [`${this.name} was sent away from ${id}: ${session.state}`] : []),
        ...session.refused.map(
          ({ fact, refusal }) =>
            `${this.name}: ${fact.kind} ${fact.id} was refused: ${JSON.stringify(refusal)}`,
        ),
      ])
      .concat(this.#device.health === 'well' ? [] : [`${this.name}: the device’s store failed`]);
  }

  #openStore(): DeviceStore {
    return inPage(this.#page, () => new DeviceStore(undefined, () => this.#disk));
  }

  #openOutbox(): Outbox {
    return inPage(this.#page, () => {
      const outbox = new Outbox(this.#device, new Slip(this.#slip));
      void outbox.begin().catch(() => undefined);
      return outbox;
    });
  }

  #show(session: string): Session {
    const { me } = this.#station;
    const { host } = new URL(this.#page.origin);
    return inPage(
      this.#page,
      () =>
        new Session(session, 1, {
          me: { ...me, plain: true, shop: { name: '', timeZone: 'UTC' } },
          role: this.role,
          outbox: this.#outbox,
          known: new LastKnown(this.#device),
          mayWrite: () => true,
          url: syncUrl({ protocol: 'http:', host }),
        }),
    );
  }

  #add(session: string, draft: FactDraft): void {
    const added = inPage(this.#page, () => this.#open.get(session)!.add(draft));
    if (!added.ok) throw new Error(`${this.name}: ${draft.kind} not taken: ${JSON.stringify(added.refusal)}`);
    const mine = this.entered.get(session) ?? new Map<string, Fact>();
    for (const fact of added.facts) mine.set(fact.id, fact);
    this.entered.set(session, mine);
  }
}
