/** One socket of one paired station, with the limits that hold for it. */
import type { WebSocket } from 'ws';
import { CLOSE, LIMIT } from '../core/index.ts';
import { BOUND, Rate } from './limits.ts';
import type { Station } from './pair.ts';

const WINDOW_MS = 10_000;

export class Peer {
  readonly station: Station;
  /** Yjs client id under which this socket announces its presence; null before it does. */
  presence: number | null = null;
  readonly #socket: WebSocket;
  readonly #now: () => number;
  readonly #frames = new Rate(LIMIT.framesPer10s, WINDOW_MS);
  readonly #questions = new Rate(LIMIT.syncStep1Per10s, WINDOW_MS);
  readonly #gaps = new Rate(BOUND.gapsPer10s, WINDOW_MS);
  #open = true;
  #answered = true;

  constructor(socket: WebSocket, station: Station, now: () => number) {
    this.#socket = socket;
    this.station = station;
    this.#now = now;
    socket.on('pong', () => (this.#answered = true));
    socket.on('close', () => (this.#open = false));
  }

  /** False from the moment it is told to go: what it sends after that counts for nothing. */
  get open(): boolean {
    return this.#open;
  }

  send(frame: Uint8Array): void {
    if (!this.#open) return;
    if (this.#socket.bufferedAmount > BOUND.socketBacklogBytes)
      return this.close(CLOSE.again, 'This station reads too slowly; it catches up when it comes back.');
    this.#socket.send(frame, { binary: true });
  }

  /** @param reason words for a person; cut to what a close frame carries (123 bytes). */
  close(code: number, reason: string): void {
    if (!this.#open) return;
    this.#open = false;
    this.#socket.close(code, shorten(reason));
  }

  terminate(): void {
    this.#open = false;
    this.#socket.terminate();
  }

  /** Pings; a socket that left the last ping unanswered is a dead line and is ended. */
  checkLine(): void {
    if (!this.#answered) return this.terminate();
    this.#answered = false;
    this.#socket.ping();
  }

  mayFrame(): boolean {
    return this.#within(this.#frames, 'frames');
  }

  maySync(): boolean {
    return this.#within(this.#questions, 'questions for the whole document');
  }

  mayGap(): boolean {
    return this.#within(this.#gaps, 'updates that build on what is not here');
  }

  #within(rate: Rate, what: string): boolean {
    if (rate.take(this.#now())) return true;
    this.close(CLOSE.tooMuch, `Too many ${what}: at most ${rate.limit} in ten seconds.`);
    return false;
  }
}

const shorten = (reason: string): string => {
  const bytes = Buffer.from(reason);
  if (bytes.length <= 123) return reason;
  return `${bytes
    .subarray(0, 120)
    .toString('utf8')
    .replace(/\uFFFD+$/, '')}…`;
};
