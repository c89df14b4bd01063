/** The shop's open jobs, or the wall's tickets: a document that only the server writes. */
import { createSubscriber } from 'svelte/reactivity';
import { CLOSE } from '../../core/index.ts';
import type { JobRow, ServerStatus, WallRow } from '../../core/index.ts';
import { Link } from './link.ts';

interface BoardOptions {
  readonly room: string;
  readonly map: 'jobs' | 'tickets';
  readonly station: number;
  readonly url: string;
  /** The server was started again (or this station is no longer welcome): ask anew who we are. */
  readonly onGone: (code: number) => void;
  /** How the server is. */
  readonly onServer: (status: ServerStatus) => void;
}

class Board<Row> {
  readonly #link: Link;
  readonly #map: string;
  #rows: readonly Row[] | null = null;
  readonly #tell = new Set<() => void>();
  readonly #subscribe = createSubscriber((update) => {
    this.#tell.add(update);
    return () => this.#tell.delete(update);
  });

  constructor({ room, map, station, url, onGone, onServer }: BoardOptions) {
    this.#map = map;
    this.#link = new Link({ room, station, url });
    const changed = () => {
      this.#rows = null;
      for (const update of this.#tell) update();
    };
    this.#link.on('change', changed);
    this.#link.on('status', changed);
    this.#link.on('closed', (code) => onGone(code));
    this.#link.on('server', onServer);
    this.#link.connect();
  }

  get rows(): readonly Row[] {
    this.#subscribe();
    return (this.#rows ??= [...this.#link.doc.getMap<Row>(this.#map).values()]);
  }

  /** False until the board's content has arrived once. */
  get ready(): boolean {
    this.#subscribe();
    return this.#link.everSynced;
  }

  get connected(): boolean {
    this.#subscribe();
    return this.#link.connected;
  }

  close(): void {
    this.#link.destroy();
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

/** Closed because the server runs anew: its boards have new names. */
export const isNewRun = (code: number): boolean => code === CLOSE.gone;
