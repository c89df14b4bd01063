/** The shop's open jobs, or the wall's tickets: a document that only the server writes. */
import { createSubscriber } from 'svelte/reactivity';
import type { JobRow, ServerStatus, WallRow } from '../../core/index.ts';
import { Link } from './link.ts';
import type { LastKnown } from './store/known.ts';

interface BoardOptions {
  readonly room: string;
  readonly map: 'jobs' | 'tickets';
  readonly station: number;
  readonly url: string;
  /** The server was started again (or this station is no longer welcome): ask anew who we are. */
  readonly onGone: (code: number) => void;
  /** How the server is. */
  readonly onServer: (status: ServerStatus) => void;
  /** Its rows are kept there, and shown while the server does not answer. */
  readonly known: LastKnown;
  /** The board's content has arrived. */
  readonly onReady?: () => void;
}

const KEEP_AFTER_MS = 1_000;

class Board<Row> {
  readonly #link: Link;
  readonly #map: string;
  readonly #known: LastKnown;
  #rows: readonly Row[] | null = null;
  /** As an earlier page left them. */
  #remembered: readonly Row[] = [];
  #keeping: ReturnType<typeof setTimeout> | undefined;
  readonly #tell = new Set<() => void>();
  readonly #subscribe = createSubscriber((update) => {
    this.#tell.add(update);
    return () => this.#tell.delete(update);
  });

  constructor({ room, map, station, url, onGone, onServer, known, onReady }: BoardOptions) {
    this.#map = map;
    this.#known = known;
    this.#link = new Link({ room, station, url });
    const changed = () => {
      this.#rows = null;
      for (const update of this.#tell) update();
    };
    this.#link.on('change', () => {
      changed();
      this.#keeping ??= setTimeout(() => this.#keep(), KEEP_AFTER_MS);
    });
    this.#link.on('synced', () => {
      this.#keep(); // at once: a page may be left within the second
      onReady?.();
    });
    this.#link.on('status', changed);
    this.#link.on('closed', (code) => onGone(code));
    this.#link.on('server', onServer);
    this.#link.connect();
    void known.rows<Row>(map).then((rows) => {
      this.#remembered = rows ?? [];
      changed();
    });
  }

  get rows(): readonly Row[] {
    this.#subscribe();
    return (this.#rows ??= this.#fromMemory
      ? this.#remembered
      : [...this.#link.doc.getMap<Row>(this.#map).values()]);
  }

  /** False until the board's content has arrived once, or is known from before where the server is away. */
  get ready(): boolean {
    this.#subscribe();
    return this.#link.everSynced || this.#fromMemory;
  }

  /** The server does not answer; the rows are those last seen. */
  get away(): boolean {
    this.#subscribe();
    return this.#link.down && !this.#link.connected;
  }

  get connected(): boolean {
    this.#subscribe();
    return this.#link.connected;
  }

  close(): void {
    if (this.#keeping !== undefined) this.#keep();
    this.#link.destroy();
  }

  get #fromMemory(): boolean {
    return !this.#link.everSynced && this.#link.down && this.#remembered.length > 0;
  }

  #keep(): void {
    clearTimeout(this.#keeping);
    this.#keeping = undefined;
    if (this.#link.everSynced) void this.#known.keepRows(this.#map, this.rows);
  }
}

export type JobBoard = Board<JobRow>;
export type WallBoard = Board<WallRow>;

export const openJobBoard = (boot: string | number, options: Omit<BoardOptions, 'room' | 'map'>): JobBoard =>
  new Board<JobRow>({ ...options, room: `board/desk/${boot}`, map: 'jobs' });
/** Rows carry their ticket themselves. */
export const openWallBoard = (
  boot: string | number,
  options: Omit<BoardOptions, 'room' | 'map'>,
): WallBoard => new Board<WallRow>({ ...options, room: `board/wall/${boot}`, map: 'tickets' });
