/** One session as a station holds it: its facts, adding to them, and knowing what is on disk. */
import { randomBytes } from 'node:crypto';
import * as decoding from 'lib0/decoding';
import { WebSocket } from 'ws';
import { WebsocketProvider } from 'y-websocket';
import * as Y from 'yjs';
import { basisFor, CLIENT_SPAN, MESSAGE, PROTOCOL } from '../core/index.ts';
import type { Fact, Kind, Payload, Refusal, StationRole } from '../core/index.ts';

export interface RoomOptions {
  readonly url: string;
  readonly cookie: string;
  readonly device: string;
  readonly number: number;
  readonly initials?: string;
}

interface Wait {
  readonly met: () => boolean;
  readonly resolve: () => void;
  readonly reject: (error: Error) => void;
}

export class Room {
  readonly #options: RoomOptions;
  readonly #doc = new Y.Doc();
  readonly #facts = this.#doc.getArray<Fact>('facts');
  readonly #provider: WebsocketProvider;
  /** For each Yjs client id the clock up to which its entries are on disk. */
  readonly #durable = new Map<number, number>();
  #waits: Wait[] = [];
  #broken: Error | null = null;

  constructor(name: string, options: RoomOptions) {
    this.#options = options;
    this.#doc.clientID = options.number * CLIENT_SPAN + randomBytes(4).readUInt32BE();
    const headers = { cookie: options.cookie, origin: options.url };
    class Socket extends WebSocket {
      constructor(address: string) {
        super(address, { headers });
      }
    }
    this.#provider = new WebsocketProvider(`${options.url.replace(/^http/, 'ws')}/sync`, name, this.#doc, {
      WebSocketPolyfill: Socket as unknown as typeof globalThis.WebSocket,
      params: { protocol: String(PROTOCOL) },
      disableBc: true,
    });
    this.#listen(name);
  }

  #listen(name: string): void {
    const { messageHandlers } = this.#provider;
    messageHandlers[MESSAGE.durable] = (_encoder, decoder) => {
      for (const [client, clock] of Y.decodeStateVector(decoding.readVarUint8Array(decoder)))
        this.#durable.set(client, clock);
      this.#check();
    };
    messageHandlers[MESSAGE.refused] = (_encoder, decoder) => {
      const refusal = JSON.parse(decoding.readVarString(decoder)) as Refusal;
      this.#break(
        new Error(`${name}: refused ${refusal.fact}: ${refusal.code} ${refusal.field} ${refusal.wants}`),
      );
    };
    messageHandlers[MESSAGE.alreadySaved] = () => this.#check();
    messageHandlers[MESSAGE.status] = () => undefined; // a program has no banner: it waits until it is saved
    this.#facts.observe(() => this.#check());
    this.#provider.on('sync', () => this.#check());
    this.#provider.on('closed', ({ code, reason }) =>
      this.#break(new Error(`${name}: closed by the server: ${code} ${reason}`)),
    );
  }

  #check(): void {
    const met = this.#waits.filter((wait) => wait.met());
    this.#waits = this.#waits.filter((wait) => !met.includes(wait));
    for (const wait of met) wait.resolve();
  }

  #break(error: Error): void {
    this.#broken = error;
    for (const wait of this.#waits.splice(0)) wait.reject(error);
  }

  /** Resolves when `met` holds, looked at after every message; rejects when refused, closed, or after `limitMs`. */
  #until(met: () => boolean, what: string, limitMs = 20_000): Promise<void> {
    if (this.#broken) return Promise.reject(this.#broken);
    if (met()) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => wait.reject(new Error(`waited ${limitMs} ms for ${what}`)), limitMs);
      const end = (finish: () => void) => {
        clearTimeout(timer);
        this.#waits = this.#waits.filter((other) => other !== wait);
        finish();
      };
      const wait: Wait = { met, resolve: () => end(resolve), reject: (error) => end(() => reject(error)) };
      this.#waits.push(wait);
    });
  }

  /** As this station knows them now. */
  get facts(): Fact[] {
    return this.#facts.toArray();
  }

  /** Resolves once the server has answered with all that it has. */
  synced(): Promise<void> {
    return this.#until(() => this.#provider.synced, 'the first answer of the server');
  }

  /** Resolves once facts with all these ids are here. */
  knows(ids: readonly string[]): Promise<void> {
    return this.#until(() => {
      const here = new Set(this.facts.map((fact) => fact.id));
      return ids.every((id) => here.has(id));
    }, `${ids.length} facts of other stations`);
  }

  /**
   * Add a fact as this station in `role`, resting on what it knows now. Resolves to its id once it is on disk;
   * rejects with the reason when the server refuses it.
   */
  async add<K extends Kind>(
    role: Exclude<StationRole, 'wall'>,
    kind: K,
    payload: Payload<K>,
  ): Promise<string> {
    const { device, initials } = this.#options;
    const id = randomBytes(12).toString('base64url');
    const by = { role, station: device, ...(initials ? { initials } : {}) };
    const basis = basisFor(this.facts, { kind, ...(payload as { side?: 'left' | 'right'; item?: string }) });
    const fact = {
      id,
      kind,
      at: new Date().toISOString(),
      by,
      ...(basis.length > 0 ? { basis } : {}),
      ...payload,
    } as unknown as Fact;
    const client = this.#doc.clientID;
    this.#facts.push([fact]);
    const clock = Y.getState(this.#doc.store, client);
    await this.#until(() => (this.#durable.get(client) ?? 0) >= clock, `${kind} to be saved`);
    return id;
  }

  close(): void {
    this.#provider.destroy();
    this.#doc.destroy();
    this.#break(new Error('the room was left'));
  }
}
