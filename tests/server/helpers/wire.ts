/** A bare socket that says what a test wants to the byte, and keeps what comes back. */
import * as decoding from 'lib0/decoding';
import { WebSocket } from 'ws';
import * as Y from 'yjs';
import { MESSAGE, PROTOCOL, readStatus } from '../../../core/index.ts';
import type { ServerStatus } from '../../../core/index.ts';
import { step1Frame, updateFrame } from '../../../server/frames.ts';
import type { Refused } from '../../../server/frames.ts';
import { until } from '../../helpers/until.ts';

export type Heard =
  | { readonly is: 'step1' }
  | { readonly is: 'step2' | 'update'; readonly update: Uint8Array }
  | { readonly is: 'presence'; readonly states: ReadonlyMap<number, unknown> }
  | { readonly is: 'durable'; readonly clocks: ReadonlyMap<number, number> }
  | { readonly is: 'refused'; readonly refused: Refused }
  | { readonly is: 'already'; readonly ids: readonly string[] }
  | { readonly is: 'status'; readonly status: ServerStatus };

export interface WireOptions {
  readonly cookie?: string;
  readonly origin?: string;
  readonly host?: string;
  readonly protocol?: number | string;
  readonly ca?: string;
}

export class Wire {
  readonly heard: Heard[] = [];
  closed: { readonly code: number; readonly reason: string } | null = null;
  /** Bytes that it has sent. */
  sent = 0;
  readonly #socket: WebSocket;

  constructor(
    url: string,
    room: string,
    { cookie, origin, host, protocol = PROTOCOL, ca }: WireOptions = {},
  ) {
    const headers = {
      ...(cookie ? { cookie } : {}),
      ...(origin ? { origin } : {}),
      ...(host ? { host } : {}),
    };
    const address = `${url.replace(/^http/, 'ws')}/sync/${room}?protocol=${protocol}`;
    this.#socket = new WebSocket(address, { headers, ...(ca ? { ca } : {}) });
    this.#socket.binaryType = 'nodebuffer';
    this.#socket.on('message', (data: Buffer) => this.heard.push(read(data)));
    this.#socket.on('close', (code, reason) => (this.closed = { code, reason: reason.toString() }));
    this.#socket.on('error', () => undefined); // a close follows
  }

  async open(): Promise<this> {
    await until(() => this.#socket.readyState === WebSocket.OPEN || this.closed, 'the socket to open');
    return this;
  }

  send(frame: Uint8Array | string): void {
    this.sent += frame.length;
    this.#socket.send(frame);
  }

  /** Resolves with the answer, or when the socket is closed. */
  async ping(): Promise<void> {
    let answered = false;
    this.#socket.once('pong', () => (answered = true));
    this.#socket.ping();
    await until(() => answered || this.closed, 'a pong');
  }

  sendUpdate(update: Uint8Array): void {
    this.send(updateFrame(update));
  }

  /** The server's whole document, asked for now. */
  async document(): Promise<Y.Doc> {
    const before = this.heard.length;
    this.send(step1Frame(new Uint8Array([0])));
    const answer = await this.hears('step2', () => true, before);
    const doc = new Y.Doc();
    Y.applyUpdate(doc, answer.update);
    return doc;
  }

  /** The first of a kind that fits, from the `from`-th frame on. */
  hears<K extends Heard['is']>(
    is: K,
    fits: (heard: Heard & { is: K }) => boolean = () => true,
    from = 0,
  ): Promise<Heard & { is: K }> {
    return until(
      () =>
        this.heard.slice(from).find((one): one is Heard & { is: K } => one.is === is && fits(one as never)),
      `${is}; heard ${this.heard.map((one) => one.is).join(', ')}; closed ${JSON.stringify(this.closed)}`,
    );
  }

  isClosed(): Promise<{ readonly code: number; readonly reason: string }> {
    return until(() => this.closed, 'the socket to be closed');
  }

  close(): void {
    this.#socket.terminate();
  }
}

function read(bytes: Uint8Array): Heard {
  const decoder = decoding.createDecoder(bytes);
  const number = decoding.readVarUint(decoder);
  switch (number) {
    case MESSAGE.sync: {
      const step = decoding.readVarUint(decoder);
      const update = decoding.readVarUint8Array(decoder);
      return step === 0 ? { is: 'step1' } : { is: step === 1 ? 'step2' : 'update', update };
    }
    case MESSAGE.awareness: {
      const inner = decoding.createDecoder(decoding.readVarUint8Array(decoder));
      const states = new Map<number, unknown>();
      for (let left = decoding.readVarUint(inner); left > 0; left--) {
        const client = decoding.readVarUint(inner);
        decoding.readVarUint(inner);
        states.set(client, JSON.parse(decoding.readVarString(inner)));
      }
      return { is: 'presence', states };
    }
    case MESSAGE.durable:
      return { is: 'durable', clocks: Y.decodeStateVector(decoding.readVarUint8Array(decoder)) };
    case MESSAGE.refused:
      return { is: 'refused', refused: JSON.parse(decoding.readVarString(decoder)) as Refused };
    case MESSAGE.alreadySaved:
      return { is: 'already', ids: JSON.parse(decoding.readVarString(decoder)) as string[] };
    case MESSAGE.status:
      return { is: 'status', status: readStatus(decoding.readVarString(decoder)) };
    default:
      throw new Error(`The server said a message of number ${number}`);
  }
}

/** Ids of a document's facts, in the list's order. */
export const idsOf = (doc: Y.Doc): string[] => doc.getArray<{ id: string }>('facts').map(({ id }) => id);
