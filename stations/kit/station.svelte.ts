/** This browser as a station of the shop: who it is, the boards it reads, the sessions it has open. */
import { ALL_WELL, CLOSE, PROTOCOL } from '../../core/index.ts';
import type { ServerStatus, StationRole } from '../../core/index.ts';
import { api } from './api.ts';
import type { ApiError, Me } from './api.ts';
import { Backlog } from './backlog.ts';
import { openJobBoard, openWallBoard } from './board.svelte.ts';
import type { JobBoard, WallBoard } from './board.svelte.ts';
import { shopClock } from './clock.ts';
import { handIn, settleHandedIn } from './hand-in.ts';
import type { HandedIn } from './hand-in.ts';
import { syncUrl } from './link.ts';
import { forgetMe, keepMe, keptDevice, keptMe } from './me.ts';
import { Names } from './names.ts';
import { SessionPool } from './pool.ts';
import { Session } from './session.ts';
import { Keeping } from './keeping.svelte.ts';
import { Version } from './version.svelte.ts';

const INITIALS = 'fibula.initials';
const RETRY_MS = 2_000;
/** How long the server gets to say who this is, until what was last known is taken. */
const PATIENCE_MS = 2_500;

/** `revoked`: the desk has ended this station's access; what it still holds is handed in (`hand-in.ts`). */
export type StationState = 'asking' | 'unpaired' | 'revoked' | 'paired' | 'unreachable';

export class Station {
  readonly role: StationRole | null;
  /** The device's store: its health, and whether this tab owns it. */
  readonly keeping: Keeping;
  readonly version: Version;
  #me = $state.raw<Me | null>(null);
  #state = $state<StationState>('asking');
  #jobs = $state.raw<JobBoard | null>(null);
  #wall = $state.raw<WallBoard | null>(null);
  #server = $state.raw<ServerStatus>(ALL_WELL);
  #initials = $state(localStorage.getItem(INITIALS) ?? '');
  /** The server itself has said who this is, since this page was loaded. */
  #sure = false;
  readonly #names = new Names();
  readonly #sessions = new SessionPool();
  readonly #backlog = new Backlog({
    open: (id) => void this.session(id),
    putDown: (id) => this.#sessions.putDown(id),
  });
  #retry: ReturnType<typeof setTimeout> | undefined;
  #patience: ReturnType<typeof setTimeout> | undefined;

  constructor(role: StationRole | null) {
    this.role = role;
    this.keeping = new Keeping(role !== null && role !== 'wall', () => this.#onOwner());
    this.version = new Version(() => this.keeping.isKept());
    this.#patience = setTimeout(() => this.#enterAsKnown(), PATIENCE_MS);
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
    if (answer.ok) return this.#enter(answer.value, true);
    if (answer.error.status === 401 || answer.error.status === 403) {
      forgetMe();
      void this.keeping.known.forget();
      this.#leave(answer.error.code === 'revoked' ? 'revoked' : 'unpaired');
      return;
    }
    this.#enterAsKnown();
    this.#retry = setTimeout(() => void this.load(), RETRY_MS);
  }

  /** The server's sentence when the code is not taken; null when it was. */
  async pair(code: string, name: string): Promise<ApiError | null> {
    const device = keptDevice();
    const answer = await api.pair({ code, ...(name ? { name } : {}), ...(device ? { device } : {}) });
    if (!answer.ok) return answer.error;
    this.#enter(answer.value, true);
    return null;
  }

  /** The device id that this browser had before, also while it is no station; null when it never was one. */
  get knownDevice(): string | null {
    return keptDevice();
  }

  /** The desk has let this station back in. */
  letIn(me: Me): void {
    this.#enter(me, true);
  }

  /** For a revoked station: hands in what this device still holds, and tells what became of it. */
  handIn(): Promise<HandedIn> {
    return handIn(this.keeping.outbox);
  }

  /** A session by id; the same object for as long as it is open. */
  session(id: string, generation = this.#generationOf(id)): Session {
    const { role } = this;
    const me = this.#me;
    if (!me || role === null || role === 'wall') throw new Error('no session without a role that has one');
    return this.#sessions.get(
      id,
      () =>
        new Session(id, generation, {
          me,
          role,
          outbox: this.keeping.outbox,
          known: this.keeping.known,
          url: syncUrl(location),
          initials: () => this.#initials || undefined,
          isDrawn: () => $effect.tracking(),
          mayWrite: () => this.keeping.owns,
          onRefused: () => void this.keeping.countRefused(),
          onSettled: () => {
            this.#sessions.tidy(id);
            this.#backlog.settled(id);
          },
          onEnd: (state) => this.#onEnd(state),
        }),
    );
  }

  /** For an effect: keeps a session open while it is shown. */
  keep(id: string): () => void {
    return this.#sessions.keep(id);
  }

  /** The ticket of a job on the board; undefined when it is not there. */
  ticketOf(session: string): string | undefined {
    return this.#jobs?.rows.find((row) => row.session === session)?.ticket;
  }

  /** The name behind a reference, once it is known. */
  nameOf(ref: string): string | undefined {
    return this.#names.of(ref);
  }

  forgetName(ref: string): void {
    this.#names.forget(ref);
  }

  /** What the person behind a reference speaks, once it is known. */
  languageOf(ref: string): string | undefined {
    return this.#names.languageOf(ref);
  }

  knowName(ref: string, name: string, language?: string): void {
    this.#names.know(ref, name, language);
  }

  close(): void {
    clearTimeout(this.#retry);
    this.version.close();
    this.keeping.close();
    this.#leave('asking');
  }

  #generationOf(id: string): number {
    return this.#jobs?.rows.find((row) => row.session === id)?.generation ?? this.#me?.generation ?? 1;
  }

  /** `sure`: by the server's word, and not from memory. */
  #enter(me: Me, sure: boolean): void {
    clearTimeout(this.#patience);
    const changed = this.#me?.boot !== me.boot || this.#me.device !== me.device;
    this.#me = me;
    this.#state = 'paired';
    this.#sure ||= sure;
    if (sure) {
      keepMe(me);
      if (me.protocol === PROTOCOL) this.version.agrees();
      else void this.version.renew();
    }
    if (changed) {
      this.#openBoards(me);
      void this.version.look();
    }
    void this.#resume();
  }

  /** Without the server's word, this is who it last said we are. */
  #enterAsKnown(): void {
    if (this.#me) return;
    const me = keptMe();
    if (me) this.#enter(me, false);
    else this.#state = 'unreachable';
  }

  #openBoards(me: Me): void {
    this.#jobs?.close();
    this.#wall?.close();
    this.#jobs = null;
    this.#wall = null;
    const options = {
      station: me.number,
      url: syncUrl(location),
      known: this.keeping.known,
      onReady: () => void this.#resume(),
      onGone: (code: number) => {
        if (code === CLOSE.version) this.#onEnd('outdated');
        else if (code === CLOSE.gone || code === CLOSE.unpaired) void this.load();
      },
      onServer: (status: ServerStatus) => (this.#server = status),
    };
    if (this.role === 'wall') this.#wall = openWallBoard(me.boot, options);
    else if (this.role !== null && this.mayWork) this.#jobs = openJobBoard(me.boot, options);
  }

  #onEnd(state: 'unpaired' | 'outdated'): void {
    if (state === 'outdated') void this.version.renew();
    else void this.load();
  }

  /** This tab owns the store from now on: what an earlier one has left goes out from here. */
  #onOwner(): void {
    for (const session of this.#sessions.all) void session.recall();
    void this.#resume();
  }

  /** Sends what was left over when this page was last closed, and what a restore may have lost. */
  async #resume(): Promise<void> {
    const works = this.role !== null && this.role !== 'wall' && this.mayWork;
    if (!works || !this.#sure || !this.keeping.owns) return;
    await settleHandedIn(this.keeping.outbox).catch(() => undefined);
    const nowMs = shopClock.nowMs();
    if (nowMs !== null) await this.keeping.outbox.sweep(nowMs).catch(() => undefined);
    const due = await this.keeping.due((id) => this.#generationOf(id));
    if (this.#me) this.#backlog.add(due);
    await this.keeping.countRefused();
  }

  #leave(state: StationState): void {
    clearTimeout(this.#patience);
    this.#backlog.stop();
    this.#jobs?.close();
    this.#wall?.close();
    this.#sessions.closeAll();
    this.#jobs = null;
    this.#wall = null;
    this.#me = null;
    this.#sure = false;
    this.#state = state;
  }
}
