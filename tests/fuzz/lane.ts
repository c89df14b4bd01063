/** One attacking connection after another: many frames on each, until one closes it. */
import * as decoding from 'lib0/decoding';
import { WebSocket } from 'ws';
import * as Y from 'yjs';
import { CLOSE, MESSAGE, PROTOCOL } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import type { Chance } from './chance.ts';
import { lastFrame, stillFrame } from './frames.ts';
import type { Frame } from './frames.ts';
import type { Target } from './target.ts';

/** What all lanes have done together. */
export interface Tally {
  /** Frames of which it is known that the server has read them. */
  frames: number;
  /** Frames that were sent and dropped, since a limit had closed the connection. */
  limited: number;
  connections: number;
  /** How often connections were closed, by code. */
  readonly closed: Map<number, number>;
  readonly faults: string[];
}

export const newTally = (): Tally => ({
  frames: 0,
  limited: 0,
  connections: 0,
  closed: new Map(),
  faults: [],
});

export interface LaneOptions {
  readonly station: Station;
  /** Where it comes from; another address than the honest stations', as another device has one. */
  readonly address: string;
  readonly room: string;
  readonly target: Target;
  readonly chance: Chance;
  readonly tally: Tally;
  /** Frames on a connection before the one that may close it. */
  readonly still: number;
}

/** What the server may do to such a connection: `ws` itself says 1009 where a frame is far too long. */
const FAIR: readonly number[] = [CLOSE.malformed, CLOSE.forbidden, CLOSE.tooMuch, 1009];
const OVERHEARD = 20;
/** Milliseconds after which a server that says nothing has a fault. */
const PATIENCE_MS = 60_000;
/** Milliseconds to wait where an upgrade was put off. */
const PUT_OFF_MS = 100;

type End = 'answered' | { readonly code: number; readonly reason: string };

export class Lane {
  readonly #options: LaneOptions;
  #socket: WebSocket | null = null;
  #closed: (End & object) | null = null;
  #settle: ((end: End) => void) | null = null;

  constructor(options: LaneOptions) {
    this.#options = options;
  }

  /** Sends one connection's worth of frames, and resolves when the server has answered for them. */
  async round(): Promise<void> {
    const { chance, target, tally, still } = this.#options;
    if (!(await this.#connected())) return;
    const frames: Frame[] = Array.from({ length: still }, () => stillFrame(chance, target));
    frames.push(lastFrame(chance, target));
    const end = await this.#answer(frames);
    if (end === 'answered') tally.frames += frames.length;
    else this.#wasClosed(end, frames.length);
  }

  close(): void {
    this.#socket?.terminate();
  }

  #wasClosed({ code, reason }: End & object, frames: number): void {
    const { tally, room } = this.#options;
    this.#socket = null;
    tally.closed.set(code, (tally.closed.get(code) ?? 0) + 1);
    const limited = code === CLOSE.tooMuch && /^Too many|^A station holds/.test(reason);
    tally[limited ? 'limited' : 'frames'] += frames;
    if (!FAIR.includes(code)) tally.faults.push(`${room} was closed with ${code} ${reason}`);
  }

  /** Sends, and asks for an answer that comes when all has been read. */
  #answer(frames: readonly Frame[]): Promise<End> {
    if (this.#closed) return Promise.resolve(this.#closed);
    const socket = this.#socket!;
    return new Promise((resolve) => {
      const timer = setTimeout(() => {
        this.#settle = null;
        socket.terminate();
        resolve({ code: 0, reason: `said nothing for ${PATIENCE_MS} ms` });
      }, PATIENCE_MS);
      this.#settle = (end) => {
        this.#settle = null;
        clearTimeout(timer);
        resolve(end);
      };
      for (const frame of frames) socket.send(frame);
      socket.ping();
    });
  }

  /** False where the upgrade was put off. */
  async #connected(): Promise<boolean> {
    if (this.#socket) return true;
    const { station, room, address, tally } = this.#options;
    const url = `${station.url.replace(/^http/, 'ws')}/sync/${room}?protocol=${PROTOCOL}`;
    const socket = new WebSocket(url, {
      headers: { cookie: station.cookie },
      localAddress: address,
      perMessageDeflate: false,
    });
    this.#closed = null;
    socket.on('message', (data: Buffer) => this.#hear(data));
    socket.on('pong', () => this.#settle?.('answered'));
    socket.on('close', (code, reason) => {
      this.#closed = { code, reason: reason.toString() };
      this.#settle?.(this.#closed);
    });
    const opened = await new Promise<boolean>((resolve) => {
      socket.once('open', () => resolve(true));
      socket.on('error', (error) => {
        if (!/response: 429/.test(error.message)) tally.faults.push(`${room}: ${error.message}`);
        resolve(false);
      });
    });
    if (!opened) {
      await new Promise((resolve) => setTimeout(resolve, PUT_OFF_MS));
      return false;
    }
    tally.connections += 1;
    this.#socket = socket;
    return true;
  }

  #hear(data: Uint8Array): void {
    const { own, overheard } = this.#options.target;
    const decoder = decoding.createDecoder(data);
    const number = decoding.readVarUint(decoder);
    if (number === MESSAGE.durable) {
      const clock = Y.decodeStateVector(decoding.readVarUint8Array(decoder)).get(own.client);
      if (clock !== undefined) own.clock = Math.max(own.clock, clock);
    }
    if (number === MESSAGE.sync && decoding.readVarUint(decoder) === 2) {
      overheard.push(new Uint8Array(decoding.readVarUint8Array(decoder)));
      if (overheard.length > OVERHEARD) overheard.shift();
    }
  }
}
