/** Bounds that only the server needs; those that stations know too are in `core/wire.ts`. */
export const BOUND = {
  /** Bytes of a frame that are read at all. Between `LIMIT.frameBytes` and this a sender is told why. */
  frameBytesRead: 2_097_152,
  /** Bytes that may wait for a slow socket before it is closed; it catches up when it comes back. */
  socketBacklogBytes: 8_388_608,
  /** Times in ten seconds that a gap is answered with SyncStep1: an honest reconnect causes one. */
  gapsPer10s: 20,
  /** Refusals told for one update; the rest shows when the station offers again. */
  refusalsPerUpdate: 50,
  /** Sockets in all: a shop has some twenty screens. */
  sockets: 500,
  /** Bytes of one presence state: a device, a name and what is being done. */
  presenceBytes: 1_024,
  /** Milliseconds between heartbeats: y-websocket gives up after 30 s without data. */
  heartbeatMs: 10_000,
  /** Rows of one document after which they are joined, at the next idle moment. */
  rowsBeforeCompaction: 100,
  /** Bytes of an HTTP request body: the longest is one person. */
  bodyBytes: 16_384,
  /** Pairing codes that may live at once: each makes a guess likelier to hit. */
  codes: 20,
  /** Milliseconds a new connection may take to say its first byte. */
  firstByteMs: 10_000,
  /** People found by one search. */
  people: 20,
  /** Milliseconds to wait for a foreign lock on the database before a commit counts as failed. */
  busyMs: 1_000,
} as const;

/** At most `limit` events in any window of `windowMs`, windows standing side by side. */
export class Rate {
  #start = Number.NEGATIVE_INFINITY;
  #count = 0;

  constructor(
    readonly limit: number,
    readonly windowMs: number,
  ) {}

  /** Counts one event at `now` (ms); false when it is one too many. */
  take(now: number): boolean {
    if (now - this.#start >= this.windowMs) {
      this.#start = now;
      this.#count = 0;
    }
    this.#count += 1;
    return this.#count <= this.limit;
  }

  /** Whether one more would be too many, counting nothing. */
  full(now: number): boolean {
    return now - this.#start < this.windowMs && this.#count >= this.limit;
  }
}
