/** This browser as a station of the shop: who it is, the boards it reads, the sessions it has open. */
import { ALL_WELL, CLOSE } from '../../core/index.ts';
import type { ServerStatus, StationRole } from '../../core/index.ts';
import { api } from './api.ts';
import type { Me } from './api.ts';
import { openJobBoard, openWallBoard } from './board.svelte.ts';
import type { JobBoard, WallBoard } from './board.svelte.ts';
import { syncUrl } from './link.ts';
import { Names } from './names.ts';
import { Outbox } from './outbox.ts';
import { SessionPool } from './pool.ts';
import { Session } from './session.ts';

const DEVICE = 'fibula.device';
const INITIALS = 'fibula.initials';
const RETRY_MS = 2_000;

export type StationState = 'asking' | 'unpaired' | 'paired' | 'unreachable';

export class Station {
  readonly role: StationRole | null;
  #me = $state.raw<Me | null>(null);
  #state = $state<StationState>('asking');
  #jobs = $state.raw<JobBoard | null>(null);
  #wall = $state.raw<WallBoard | null>(null);
  #server = $state.raw<ServerStatus>(ALL_WELL);
  #initials = $state(localStorage.getItem(INITIALS) ?? '');
  readonly #names = new Names();
  readonly #sessions = new SessionPool();
  readonly #outbox = new Outbox();
  #retry: ReturnType<typeof setTimeout> | undefined;

  constructor(role: StationRole | null) {
    this.role = role;
    void this.load();
  }

  get me(): Me | null {
    return this.#me;
  }

  get state(): StationState {
    return this.#state;
  }

  /** Paired, and granted the role of this page. */
  get mayWork(): boolean {
    return this.#me !== null && (this.role === null || this.#me.roles.includes(this.role));
  }

  get jobs(): JobBoard | null {
    return this.#jobs;
  }

  get wall(): WallBoard | null {
    return this.#wall;
  }

  /** How the server is, as long as it is there to say so. */
  get server(): ServerStatus {
    return (this.#jobs ?? this.#wall)?.connected === true ? this.#server : ALL_WELL;
  }

  get initials(): string {
    return this.#initials;
  }

  set initials(value: string) {
    this.#initials = value.trim().slice(0, 8);
    localStorage.setItem(INITIALS, this.#initials);
  }

  async load(): Promise<void> {
    clearTimeout(this.#retry);
    const answer = await api.me();
    if (answer.ok) return this.#enter(answer.value);
    if (answer.error.status === 401 || answer.error.status === 403) {
      this.#leave('unpaired');
      return;
    }
    if (!this.#me) this.#state = 'unreachable';
    this.#retry = setTimeout(() => void this.load(), RETRY_MS);
  }

  /** The server's sentence when the code is not taken; null when it was. */
  async pair(code: string, name: string): Promise<{ status: number; text: string } | null> {
    const device = localStorage.getItem(DEVICE);
    const answer = await api.pair({ code, ...(name ? { name } : {}), ...(device ? { device } : {}) });
    if (!answer.ok) return answer.error;
    this.#enter(answer.value);
    return null;
  }

  /** A session by id; the same object for as long as it is open. */
  session(id: string, generation = this.#me?.generation ?? 1): Session {
    const { role } = this;
    const me = this.#me;
    if (!me || role === null || role === 'wall') throw new Error('no session without a role that has one');
    return this.#sessions.get(
      id,
      () =>
        new Session(id, generation, {
          me,
          role,
          outbox: this.#outbox,
          url: syncUrl(location),
          initials: () => this.#initials || undefined,
          onSettled: () => this.#sessions.tidy(id),
        }),
    );
  }

  /** For an effect: keeps a session open while it is shown. */
  keep(id: string): () => void {
    return this.#sessions.keep(id);
  }

  /** The name behind a reference, once it is known. */
  nameOf(ref: string): string | undefined {
    return this.#names.of(ref);
  }

  knowName(ref: string, name: string): void {
    this.#names.know(ref, name);
  }

  close(): void {
    clearTimeout(this.#retry);
    this.#leave('asking');
  }

  #enter(me: Me): void {
    const changed = this.#me?.boot !== me.boot || this.#me.device !== me.device;
    this.#me = me;
    this.#state = 'paired';
    localStorage.setItem(DEVICE, me.device);
    if (changed) this.#openBoards(me);
    if (this.role && this.role !== 'wall' && me.roles.includes(this.role)) void this.#resume();
  }

  #openBoards(me: Me): void {
    this.#jobs?.close();
    this.#wall?.close();
    this.#jobs = null;
    this.#wall = null;
    const options = {
      station: me.number,
      url: syncUrl(location),
      onGone: (code: number) => {
        if (code === CLOSE.gone || code === CLOSE.unpaired) void this.load();
      },
      onServer: (status: ServerStatus) => (this.#server = status),
    };
    if (this.role === 'wall') this.#wall = openWallBoard(me.boot, options);
    else if (this.role !== null && this.mayWork) this.#jobs = openJobBoard(me.boot, options);
  }

  /** Sends what was left over when this page was last closed. */
  async #resume(): Promise<void> {
    try {
      await this.#outbox.sweep(Date.now());
      for (const id of await this.#outbox.waitingSessions()) this.session(id);
    } catch {
      // Each session says by itself when the device's store fails.
    }
  }

  #leave(state: StationState): void {
    this.#jobs?.close();
    this.#wall?.close();
    this.#sessions.closeAll();
    this.#jobs = null;
    this.#wall = null;
    this.#me = null;
    this.#state = state;
  }
}
