/** One shared document on the wire: y-websocket, the server's own messages, and client ids that say whose they are. */
import { readVarString, readVarUint8Array } from 'lib0/decoding';
import type { Decoder } from 'lib0/decoding';
import { ObservableV2 } from 'lib0/observable';
import { WebsocketProvider } from 'y-websocket';
import * as Y from 'yjs';
import { CLIENT_SPAN, MESSAGE, PROTOCOL, readStatus, stationOf } from '../../core/index.ts';
import type { Refusal, ServerStatus } from '../../core/index.ts';
import { randomUint32 } from './chance.ts';

/** A refusal, with the Yjs client id that is blocked in this document from now on. */
export type Refused = Refusal & { readonly client: number };

interface LinkEvents {
  /** The document changed. */
  change: () => void;
  /** More is on disk than before. */
  durable: () => void;
  /** The first answer of this document came: what the server has is here. */
  synced: () => void;
  /** Connected, or no longer. */
  status: () => void;
  refused: (refused: Refused) => void;
  /** These facts were there already, so this document's own copy will never be taken. */
  already: (ids: readonly string[]) => void;
  /** The server does not want this socket back (44xx). */
  closed: (code: number, reason: string) => void;
  presence: () => void;
  /** The server's own state, on connecting and whenever it changes. */
  server: (status: ServerStatus) => void;
}

export interface LinkOptions {
  readonly room: string;
  /** This station's number. */
  readonly station: number;
  /** `ws(s)://host:port/sync` */
  readonly url: string;
  /** How long a connection may take to open, ms. */
  readonly openingMs?: number;
}

/** How long a server gets for its first answer until it counts as away. */
const PATIENCE_MS = 4_000;
/** A connection that has not opened by then will not any more, ms. */
const OPENING_MS = 10_000;

export const syncUrl = (at: { protocol: string; host: string }): string =>
  `${at.protocol === 'https:' ? 'wss' : 'ws'}://${at.host}/sync`;

export class Link extends ObservableV2<{ [K in keyof LinkEvents]: LinkEvents[K] }> {
  readonly doc = new Y.Doc();
  readonly room: string;
  readonly #provider: WebsocketProvider;
  readonly #station: number;
  readonly #durable = new Map<number, number>();
  readonly #openingMs: number;
  #everSynced = false;
  #down = false;
  #patience: ReturnType<typeof setTimeout> | undefined;
  #opening: ReturnType<typeof setTimeout> | undefined;

  constructor({ room, station, url, openingMs = OPENING_MS }: LinkOptions) {
    super();
    this.room = room;
    this.#station = station;
    this.#openingMs = openingMs;
    this.#ownClientId();
    const provider = new WebsocketProvider(url, room, this.doc, {
      connect: false,
      // Tabs must not pass updates to each other around the server's gate.
      disableBc: true,
      params: { protocol: String(PROTOCOL) },
    });
    this.#provider = provider;
    this.#handle(MESSAGE.durable, (decoder) => this.#mergeDurable(readVarUint8Array(decoder)));
    this.#handle(MESSAGE.refused, (decoder) =>
      this.emit('refused', [JSON.parse(readVarString(decoder)) as Refused]),
    );
    this.#handle(MESSAGE.alreadySaved, (decoder) =>
      this.emit('already', [JSON.parse(readVarString(decoder)) as string[]]),
    );
    this.#handle(MESSAGE.status, (decoder) => this.emit('server', [readStatus(readVarString(decoder))]));
    provider.on('status', () => {
      this.#watchOpening();
      this.emit('status', []);
    });
    provider.on('sync', (is: boolean) => {
      if (is) this.#down = false;
      if (is && !this.#everSynced) {
        this.#everSynced = true;
        this.emit('synced', []);
      }
      this.emit('status', []);
    });
    provider.on('connection-close', () => this.#isDown());
    provider.on('closed', ({ code, reason }) => this.emit('closed', [code, reason]));
    provider.awareness.on('change', () => this.emit('presence', []));
    this.doc.on('update', (bytes: Uint8Array, from: unknown) => {
      // The server tells of nothing that is not on its disk.
      if (from === provider) this.#durableUpTo(Y.parseUpdateMeta(bytes).to);
      this.emit('change', []);
    });
  }

  connect(): void {
    this.#provider.connect();
    // A server that is switched off refuses nobody: the browser would wait for minutes.
    clearTimeout(this.#patience);
    this.#patience = setTimeout(() => this.#provider.synced || this.#isDown(), PATIENCE_MS);
  }

  get connected(): boolean {
    return this.#provider.wsconnected && this.#provider.synced;
  }

  /** Whether the server's content has ever arrived in this document. */
  get everSynced(): boolean {
    return this.#everSynced;
  }

  /** The last try to reach the server failed, or its connection ended. */
  get down(): boolean {
    return this.#down;
  }

  /** Is the item with this client and clock on the server's disk? */
  isDurable(client: number, clock: number): boolean {
    return (this.#durable.get(client) ?? 0) > clock;
  }

  /** Yjs takes another client id when it meets its own from elsewhere: ours must still say whose it is. */
  write(change: (doc: Y.Doc) => void): void {
    if (stationOf(this.doc.clientID) !== this.#station) this.#ownClientId();
    this.doc.transact(() => change(this.doc));
  }

  setPresence(state: Record<string, unknown>): void {
    this.#provider.awareness.setLocalState(state);
  }

  /** Everybody else's presence. */
  get others(): readonly Record<string, unknown>[] {
    const { awareness } = this.#provider;
    return [...awareness.getStates()]
      .filter(([client]) => client !== awareness.clientID)
      .map(([, state]) => state);
  }

  override destroy(): void {
    clearTimeout(this.#patience);
    clearTimeout(this.#opening);
    this.#provider.destroy();
    this.#provider.awareness.destroy();
    this.doc.destroy();
    super.destroy();
  }

  #isDown(): void {
    this.#down = true;
    this.emit('status', []);
  }

  /**
   * A connection that is taken by something on the way and never answered stays in opening for minutes, and
   * y-websocket looks only after open ones: it is ended here, and y-websocket tries again.
   */
  #watchOpening(): void {
    clearTimeout(this.#opening);
    const { ws, wsconnecting } = this.#provider;
    if (wsconnecting) this.#opening = setTimeout(() => ws?.close(), this.#openingMs);
  }

  #ownClientId(): void {
    this.doc.clientID = this.#station * CLIENT_SPAN + randomUint32();
  }

  #handle(message: number, read: (decoder: Decoder) => void): void {
    this.#provider.messageHandlers[message] = (_encoder, decoder) => read(decoder);
  }

  #mergeDurable(vector: Uint8Array): void {
    this.#durableUpTo(Y.decodeStateVector(vector));
    this.emit('durable', []);
  }

  #durableUpTo(clocks: ReadonlyMap<number, number>): void {
    for (const [client, clock] of clocks)
      this.#durable.set(client, Math.max(clock, this.#durable.get(client) ?? 0));
  }
}
