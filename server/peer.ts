/** One socket of one paired station, with the limits that hold for it. */
import type { WebSocket } from 'ws';
import { CLOSE } from '../core/index.ts';
import type { Limits } from './limit-table.ts';
import { BOUND, Rate } from './limits.ts';
import type { Station } from './pair.ts';

const WINDOW_MS = 10_000;

export class Peer {
  readonly station: Station;
  /** Yjs client id under which this socket announces its presence; null before it does. */
  presence: number | null = null;
  readonly #socket: WebSocket;
  readonly #now: () => number;
  readonly #backlogBytes: number;
  readonly #frames: Rate;
  readonly #bytes: Rate;
  readonly #questions: Rate;
  readonly #gaps: Rate;
  readonly #logged = new Rate(BOUND.refusalsLoggedPer10s, WINDOW_MS);
  #open = true;
  #answered = true;

  constructor(socket: WebSocket, station: Station, limits: Limits, now: () => number) {
    this.#socket = socket;
    this.station = station;
    this.#now = now;
    this.#backlogBytes = limits.backlogBytes;
    this.#frames = new Rate(limits.framesPer10s, WINDOW_MS);
    this.#bytes = new Rate(limits.bytesPer10s, WINDOW_MS);
    this.#questions = new Rate(limits.questionsPer10s, WINDOW_MS);
    this.#gaps = new Rate(limits.gapsPer10s, WINDOW_MS);
    // Each is answered with a pong, so it costs as much as a frame.
    socket.on('ping', (data) => this.mayFrame(data.length));
    socket.on('pong', () => (this.#answered = true));
    socket.on('close', () => (this.#open = false));
  }

  /** False from the moment it is told to go: what it sends after that counts for nothing. */
  get open(): boolean {
    return this.#open;
  }

  send(frame: Uint8Array): void {
    if (!this.#open) return;
    if (this.#socket.bufferedAmount > this.#backlogBytes)
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

  /** Counts a frame of `bytes`, and closes the connection when it is one too many. */
  mayFrame(bytes: number): boolean {
    return this.#within(this.#frames, 'frames') && this.#within(this.#bytes, 'bytes', bytes);
  }

  /** Whether the log shall have one more line about what this connection was refused. */
  mayLog(): boolean {
    return this.#logged.take(this.#now());
  }

  maySync(): boolean {
    return this.#within(this.#questions, 'questions for the whole document');
  }

  mayGap(): boolean {
    return this.#within(this.#gaps, 'updates that build on what is not here');
  }

  #within(rate: Rate, what: string, amount = 1): boolean {
    if (rate.take(this.#now(), amount)) return true;
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
