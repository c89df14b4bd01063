/**
 * Bounds that only the server needs and nobody sets. Those that a shop may set are in `limit-table.ts`; those that
 * stations know too are in `core/wire.ts`.
 */
export const BOUND = {
  /** Bytes of a frame that are read at all. Between `LIMIT.frameBytes` and this a sender is told why. */
  frameBytesRead: 2_097_152,
  /** Refusals told for one update; the rest shows when the station offers again. */
  refusalsPerUpdate: 50,
  /** Characters of one presence state: a device, a name and what is being done. */
  presenceBytes: 1_024,
  /** Milliseconds between heartbeats: y-websocket gives up after 30 s without data. */
  heartbeatMs: 10_000,
  /** Documents of open sessions in memory: a busy day's, all of them. Those used longest ago rest on the disk. */
  documentsAwake: 150,
  /** Documents put to rest or sessions put down after which memory is given back, once nobody enters anything. */
  letGoBeforeCollection: 50,
  /** Rows of one document after which they are joined, at the next idle moment. */
  rowsBeforeCompaction: 100,
  /** Pairing codes that may live at once: each makes a guess likelier to hit. */
  codes: 20,
  /** Milliseconds a sync connection gets to answer that it is closed, before it is ended. */
  goodbyeMs: 5_000,
  /** Refused facts that are logged for one sync connection in ten seconds: a log must not be filled from outside. */
  refusalsLoggedPer10s: 20,
  /** Wrong PINs of the desk's corner before the first wait: a person mistypes. */
  pinFree: 4,
  /** Waits after each further wrong PIN, in seconds; the last stays, so that six digits cannot be tried through. */
  pinWaitSeconds: [30, 60, 120, 300, 900, 3_600],
  /** Minutes the corner stays unlocked after the last thing done in it. */
  cornerMinutes: 5,
  /** Minutes a request to be let back in waits for the desk. */
  letInMinutes: 10,
  /** Requests to be let back in that may wait at once: a person goes through them. */
  letIns: 20,
  /** Of these for one device: two tabs and one forgotten. */
  letInsPerDevice: 3,
  /** Requests to be let back in that an address may make in ten minutes. */
  letInsPerAddress: 20,
  /** Bytes of one hand-in to the quarantine: stations send in parts. */
  handInBytes: 524_288,
  /** Facts in one hand-in: a day's backlog. */
  handInFacts: 200,
  /** Bytes of one entry in the quarantine: fifty of them fit one update. */
  quarantineEntryBytes: 16_384,
  /** Hand-ins and questions about them that a revoked station may send in a minute. */
  handInsPerMinute: 120,
  /** Entries in the quarantine of one station. A day's backlog is 200. */
  quarantinePerStation: 2_000,
  /** Entries in the quarantine of all stations. */
  quarantine: 10_000,
  /** Bytes in the quarantine of all stations: it must not fill the disk. */
  quarantineBytes: 16_777_216,
  /** Days that what the desk threw away can still be exported, and that a station is told what became of an entry. */
  quarantineDays: 30,
  /** People found by one search. */
  people: 20,
  /** Sessions found by one search of the archive: a screen of them; how many more there are is said. */
  found: 30,
  /** Finished jobs that stay on the board, the latest: a day's. The others are found in the archive. */
  closedOnBoard: 100,
  /** Bytes of all photos together: some ten thousand, a few seasons. Past it none is taken until some are erased. */
  photosBytes: 8_000_000_000,
  /** Models in the shop's catalogue of boots: every boot of twenty seasons. */
  models: 2_000,
  /** Models in the report of what was learned, those with the most moves first: a page that can be read. */
  modelsShown: 200,
  /** Newest moves of a model in its plot: more would be one blot. */
  movesShown: 200,
  /** Pairs that are far off in that report, undecided ones first: of a thousand moves three or so are honest. */
  farOffShown: 100,
  /** Months of the score of what was foretold: three years. */
  monthsShown: 36,
  /** Pieces that a period of the shop's numbers is cut into: a year of days, and more than a screen can show. */
  buckets: 400,
  /** Bytes of a table of models: two thousand rows of all columns. */
  tableBytes: 1_000_000,
  /** Repeatability studies of the shop: two a year for as long as it stands. */
  studies: 200,
  /** Photos that one station may hand in, in a minute: a backlog of two full sessions. */
  photosPerMinute: 60,
  /** Milliseconds to wait for a foreign lock on the database before a commit counts as failed. */
  busyMs: 1_000,
  /** Bytes of a database that is read through, each session and each entry, before the server starts: about a second. */
  examinedAtStartBytes: 16_777_216,
  /** Bytes of one whose structure is checked before the start; of a larger one only in idle time. */
  checkedAtStartBytes: 536_870_912,
  /** Millions of bytes free on the disk under which people are warned: a shop's year is some 100. */
  lowSpaceMb: 1_000,
} as const;

/** At most `limit` events in any window of `windowMs`, windows standing side by side. */
export class Rate {
  #start = Number.NEGATIVE_INFINITY;
  #count = 0;

  constructor(
    readonly limit: number,
    readonly windowMs: number,
  ) {}

  /** Counts an event at `now` (ms), or `amount` of them; false when that is too many. */
  take(now: number, amount = 1): boolean {
    // A clock set back would keep an old window open for as long as it was set back.
    if (Math.abs(now - this.#start) >= this.windowMs) {
      this.#start = now;
      this.#count = 0;
    }
    this.#count += amount;
    return this.#count <= this.limit;
  }

  /** How many too many there were in this window; 1 at the first. */
  get over(): number {
    return Math.max(0, this.#count - this.limit);
  }

  /** Whether one more would be too many, counting nothing. */
  full(now: number): boolean {
    return Math.abs(now - this.#start) < this.windowMs && this.#count >= this.limit;
  }
}
