/** All rooms of the server: who is let into which, and the one commit that a tick's entries share. */
import type { Logger } from 'pino';
import type { WebSocket } from 'ws';
import { CLOSE, LIMIT } from '../core/index.ts';
import type { Fact, JobRow, ServerStatus } from '../core/index.ts';
import { Boards } from './board.ts';
import { factsOf } from './document.ts';
import { durableFrame, readFrame, statusFrame } from './frames.ts';
import type { Gate } from './gate.ts';
import type { Health } from './health.ts';
import { HeldRoom } from './held.ts';
import type { Limits } from './limit-table.ts';
import { BOUND } from './limits.ts';
import type { Station } from './pair.ts';
import { OpenSessions } from './open-sessions.ts';
import { Peer } from './peer.ts';
import { SessionRoom } from './room.ts';
import type { Room } from './room.ts';
import type { Spoilt } from './spoilt.ts';
import type { JobToKeep, NewRow, Store, StoredDocument } from './store.ts';
import type { Author, TakenIn } from './take-in.ts';
import { troubleOf } from './trouble.ts';

/** Why a socket may not come in, as y-websocket understands it. */
export interface Refusal {
  readonly code: number;
  readonly reason: string;
}

export interface HubOutside {
  readonly store: Store;
  readonly log: Logger;
  readonly gate: Gate;
  readonly health: Health;
  readonly spoilt: Spoilt;
  /** Whether a station is still what it was when it came in (`Stations.isCurrent`). */
  isCurrent(station: Station): boolean;
  /** What the server writes of its own behind entries of a session that were let in just now. */
  own(session: string, added: readonly Fact[], facts: () => readonly Fact[]): readonly Fact[];
  /** Learns from a session when there is time. */
  learn(session: string): void;
  /** Counts starts; names this run's boards. */
  readonly boot: number;
  readonly limits: Limits;
  now(): number;
}

const SESSION_ROOM = /^session\/([0-9a-f]{32})\/([1-9][0-9]{0,8})$/;
const HEARTBEAT = durableFrame(new Map());

export class Hub {
  readonly #outside: HubOutside;
  readonly #log: Logger;
  readonly #store: Store;
  readonly #health: Health;
  readonly #held = new HeldRoom();
  readonly #sessions: OpenSessions;
  readonly #boards: Boards;
  readonly #pending = new Set<SessionRoom>();
  readonly #peers = new Set<Peer>();
  readonly #beat: NodeJS.Timeout;
  #flushing: NodeJS.Immediate | undefined;
  #stopped = false;
  #allGone: () => void = () => undefined;

  constructor(outside: HubOutside) {
    this.#outside = outside;
    this.#log = outside.log;
    this.#store = outside.store;
    this.#health = outside.health;
    this.#health.onChange((now, before) => this.#tellStatus(now, before));
    outside.spoilt.onNew(({ session }) => this.#endSpoilt(session));
    this.#sessions = new OpenSessions({
      log: outside.log,
      idleMs: outside.limits.sessionIdleSeconds * 1000,
      now: () => outside.now(),
      join: (room) => this.#join(room),
    });
    this.#boards = new Boards(outside.boot, outside.store.openJobs(), {
      log: outside.log,
      read: (session) => this.read(session),
      learn: (session) => outside.learn(session),
      keep: (jobs) => this.#keepJobs(jobs),
    });
    this.#beat = setInterval(() => this.#everyBeat(), BOUND.heartbeatMs);
  }

  /** Lets a socket into a room, or closes it with the reason. */
  connect(socket: WebSocket, station: Station, roomName: string): void {
    const room = this.#roomFor(station, roomName);
    if ('code' in room) {
      this.#log.info(
        { station: station.number, code: room.code, room: roomName.slice(0, 80) },
        'socket refused',
      );
      socket.close(room.code, room.reason);
      return;
    }
    const peer = new Peer(socket, station, this.#outside.limits, () => this.#outside.now());
    this.#peers.add(peer);
    socket.on('message', (data: Buffer, isBinary: boolean) => this.#receive(room, peer, data, isBinary));
    socket.on('close', () => {
      this.#peers.delete(peer);
      room.leave(peer);
      this.#log.debug({ station: station.number, room: room.name }, 'socket left');
      if (this.#peers.size === 0) this.#allGone();
    });
    room.join(peer);
    peer.send(statusFor(station, this.#health.status));
  }

  /** Closes the sockets of a station whose token has ended, so that it comes back as who it is now. */
  disconnect(number: number, code: number, reason: string): void {
    for (const peer of this.#peers) if (peer.station.number === number) peer.close(code, reason);
  }

  /** The room of a session with today's generation, whether there is such a session or not. */
  roomOf(session: string): { room: string; known: boolean; erased: boolean } {
    this.flush();
    const document = this.#store.find(session);
    return {
      room: `session/${session}/${document?.generation ?? this.#store.base}`,
      known: document !== undefined,
      erased: this.#store.isErased(session),
    };
  }

  /**
   * Commits what is pending, lets `change` put other generations of some sessions on the disk, and ends the
   * rooms of these; nothing comes in between.
   */
  regenerate(change: () => readonly string[], reason: string): void {
    this.flush();
    for (const session of change()) {
      this.#sessions.get(session)?.retire(reason);
      this.#boards.regenerated(session);
    }
  }

  /** The ticket of a session on the board: what is on disk of it may be some seconds behind. */
  ticketOf(session: string): string | null {
    return this.#boards.ticketOf(session);
  }

  /** Numbers of the stations that hold a socket. */
  connected(): ReadonlySet<number> {
    return new Set([...this.#peers].filter(({ open }) => open).map(({ station }) => station.number));
  }

  /**
   * Writes entries out of the quarantine into their session, on disk when it returns. Undefined when the session
   * is neither there nor opened by `facts`, or the disk did not take them.
   */
  takeIn(session: string, facts: readonly Fact[], author: Author): TakenIn | undefined {
    const stored = this.#store.find(session);
    const live = this.#sessions.get(session);
    if (this.#outside.spoilt.has(session)) return undefined;
    if (!stored && !live && facts[0]?.kind !== 'session.opened') return undefined;
    const room = live ?? this.#open(session, stored);
    const taken = room.takeIn(facts, author);
    const lost = this.flush();
    return this.#sessions.get(session) === room && !lost.includes(session) ? taken : undefined;
  }

  /** The rows of the desk's board. */
  jobs(): Iterable<JobRow> {
    return this.#boards.rows();
  }

  /** A session as it is on disk; undefined when there is none. Throws `SpoiltSession`. */
  read(session: string): { document: StoredDocument; facts: Fact[] } | undefined {
    this.flush();
    const document = this.#store.find(session);
    if (!document) return undefined;
    const live = this.#sessions.get(session);
    try {
      if (live && live.generation === document.generation) return { document, facts: live.facts() };
      return { document, facts: factsOf(this.#store.updates(document.id), session) };
    } catch (error) {
      this.#outside.spoilt.isIn(error);
      throw error;
    }
  }

  /** Commits what is pending now. @returns the sessions of which something could not be stored. */
  flush(): string[] {
    clearImmediate(this.#flushing);
    this.#flushing = undefined;
    this.#dropRevoked();
    const pending = [...this.#pending].flatMap((room) => {
      const row = room.pendingRow();
      return row ? [{ room, row }] : [];
    });
    this.#pending.clear();
    if (pending.length === 0) return [];
    if (!this.#commit(pending)) return pending.map(({ room }) => room.session);
    for (const { room, row } of pending) {
      room.committed(row);
      this.#boards.changed(room.session);
    }
    return [];
  }

  /** Stops everything that runs by itself, once. @returns the sessions of which something could not be stored. */
  stop(): string[] {
    if (this.#stopped) return [];
    this.#stopped = true;
    clearInterval(this.#beat);
    const unsaved = this.flush();
    for (const peer of this.#peers) peer.close(CLOSE.again, 'The server is stopping.');
    this.#boards.stop();
    return unsaved;
  }

  /** Settles when every socket has closed, or after `patienceMs`. */
  gone(patienceMs: number): Promise<void> {
    if (this.#peers.size === 0) return Promise.resolve();
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, patienceMs);
      this.#allGone = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }

  /** Ends sockets that did not answer the close. */
  terminate(): void {
    for (const peer of this.#peers) peer.terminate();
  }

  /**
   * An entry let in before its station's token ended must not be committed after. Whatever else waits in that
   * document may build on it, so the document is read again; its stations come back and offer theirs.
   */
  #dropRevoked(): void {
    for (const room of this.#pending) {
      const ended = [...room.pendingFrom()].find((station) => !this.#outside.isCurrent(station));
      if (!ended) continue;
      this.#log.warn({ session: room.session, station: ended.number }, 'not committed: the token has ended');
      room.abandon('A station was revoked; this session is read from the disk again.');
    }
  }

  /** All or nothing. After a failure the rooms stand where the disk stands. */
  #commit(pending: readonly { readonly room: SessionRoom; readonly row: NewRow }[]): boolean {
    const rows = pending.map(({ row }) => row);
    try {
      this.#store.commit(rows);
    } catch (error) {
      this.#log.error({ err: error, rows: rows.length }, 'commit failed');
      const bytes = rows.reduce((sum, row) => sum + row.bytes.length, 0);
      if (this.#health.failed(error, bytes) !== null) for (const { room } of pending) room.revert();
      else
        for (const { room } of pending) room.abandon('The server could not store an entry; it tries again.');
      return false;
    }
    this.#health.worked();
    return true;
  }

  #keepJobs(jobs: readonly JobToKeep[]): boolean {
    if (this.#health.readOnly !== null) return false;
    try {
      this.#store.keepJobs(jobs);
      return true;
    } catch (error) {
      this.#health.failed(error);
      throw error;
    }
  }

  /** Everybody hears of it; when the disk takes entries again, the stations are asked for those that wait. */
  #tellStatus(now: ServerStatus, before: ServerStatus): void {
    for (const peer of this.#peers) peer.send(statusFor(peer.station, now));
    if (now.readOnly !== null || before.readOnly === null) return;
    for (const room of this.#sessions) room.askAll();
    this.#held.letGo();
  }

  #roomFor(station: Station, name: string): Room | Refusal {
    if (this.#stopped) return { code: CLOSE.again, reason: 'The server is stopping.' };
    const { sockets, socketsPerStation } = this.#outside.limits;
    const held = [...this.#peers].filter((peer) => peer.station.number === station.number).length;
    // Come back, rather than go: on a bad network most of them may be dead, which the next pings show.
    if (held >= socketsPerStation)
      return { code: CLOSE.again, reason: `A station holds at most ${socketsPerStation} connections.` };
    if (this.#peers.size >= sockets)
      return { code: CLOSE.again, reason: `All ${sockets} connections are taken; try again later.` };
    if (name === this.#boards.wall.name) return this.#boards.wall;
    if (station.roles.every((role) => role === 'wall'))
      return { code: CLOSE.forbidden, reason: 'A wall screen sees the wall board and nothing else.' };
    if (name === this.#boards.desk.name) return this.#boards.desk;
    const [, session, generation] = SESSION_ROOM.exec(name) ?? [];
    if (session === undefined)
      return { code: CLOSE.gone, reason: 'There is no such room now; ask the server for today’s name.' };
    return this.#sessionRoom(station, session, Number(generation));
  }

  #sessionRoom(station: Station, session: string, generation: number): Room | Refusal {
    const live = this.#sessions.get(session);
    if (live) return live.generation === generation ? live : OLD_GENERATION;
    const { spoilt } = this.#outside;
    try {
      const stored = this.#store.find(session);
      if ((stored?.generation ?? this.#store.base) !== generation) return OLD_GENERATION;
      if (spoilt.has(session)) return SPOILT;
      if (!stored && !station.roles.includes('desk'))
        return { code: CLOSE.gone, reason: 'There is no such session; the desk opens it first.' };
      return this.#open(session, stored);
    } catch (error) {
      if (spoilt.isIn(error)) return SPOILT;
      this.#log.error({ err: error, session }, 'a session could not be loaded');
      if (this.#health.failed(error) !== null) return this.#held;
      return { code: CLOSE.gone, reason: 'This session cannot be read from the disk; see the server’s log.' };
    }
  }

  /** What it holds is on disk, or not to be believed. Stations keep what they have. */
  #endSpoilt(session: string): void {
    this.flush();
    this.#sessions.get(session)?.retire(SPOILT.reason, SPOILT.code);
  }

  /** Throws when it cannot be read from the disk. */
  #open(session: string, stored: StoredDocument | undefined): SessionRoom {
    const room = new SessionRoom(session, stored?.generation ?? this.#store.base, {
      store: this.#store,
      log: this.#log,
      gate: this.#outside.gate,
      now: () => this.#outside.now(),
      pending: (room) => {
        this.#pending.add(room);
        this.#flushing ??= setImmediate(() => this.flush());
      },
      takesEntries: () => this.#health.readOnly === null,
      own: (...of) => this.#outside.own(...of),
      used: (room) => this.#sessions.use(room),
      broken: (room) => {
        this.#pending.delete(room);
        this.#sessions.forget(room);
      },
    });
    this.#sessions.add(room);
    return room;
  }

  #receive(room: Room, peer: Peer, data: Buffer, isBinary: boolean): void {
    if (!peer.open || !peer.mayFrame(data.length)) return;
    if (data.length > LIMIT.frameBytes)
      return peer.close(
        CLOSE.tooMuch,
        `A frame has at most ${LIMIT.frameBytes} bytes; this one has ${data.length}.`,
      );
    const frame = isBinary ? readFrame(data) : null;
    if (!frame) {
      this.#log.warn({ station: peer.station.number, bytes: data.length }, 'malformed frame');
      return peer.close(CLOSE.malformed, 'Refused: this frame cannot be read.');
    }
    try {
      room.receive(peer, frame);
    } catch (error) {
      if (this.#outside.spoilt.isIn(error)) return;
      this.#log.error({ err: error, room: room.name }, 'a frame made the server fail');
      this.#health.failed(error);
      peer.close(CLOSE.again, 'The server failed on this; its log says how.');
    }
  }

  #everyBeat(): void {
    for (const peer of this.#peers) {
      peer.send(HEARTBEAT);
      peer.checkLine();
    }
    this.#sessions.tidy(this.#health.readOnly === null);
  }

  /** For want of space alone nobody has to wait: the rows are good as they are. */
  #join(room: SessionRoom): void {
    try {
      room.compact();
    } catch (error) {
      if (this.#outside.spoilt.isIn(error)) return;
      this.#log.error({ err: error, session: room.session }, 'rows could not be joined');
      if (troubleOf(error) === 'damaged') this.#health.failed(error);
    }
  }
}

const SPOILT: Refusal = {
  code: CLOSE.damaged,
  reason: 'This session is damaged on the server’s disk; its console says what to do.',
};
const OLD_GENERATION: Refusal = {
  code: CLOSE.gone,
  reason: 'This copy of the session is of an older generation; ask the server for today’s room.',
};

/** Backups are for the desk: why one failed may name folders of the account that the server runs under. */
const statusFor = ({ roles }: Station, status: ServerStatus): Uint8Array =>
  statusFrame(roles.includes('desk') ? status : { ...status, backup: null });
