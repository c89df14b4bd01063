/**
 * A bad network between one station and the server: a TCP proxy that delays, cuts into pieces, drops, half-opens and
 * reorders connections by chance from a seed.
 *
 * Bytes within one TCP connection cannot be reordered, and here they are not: what changes places is two connections,
 * one held back while another's bytes go by, or a dead one's last bytes that arrive after its successor's first.
 */
import { connect, createServer } from 'node:net';
import type { AddressInfo, Server, Socket } from 'node:net';
import { randomFrom } from '../../demo/random.ts';
import type { Random } from '../../demo/random.ts';

/** Chances are for each chunk that is read from a socket, 0 to 1. */
export interface Weather {
  /** Longest wait of a piece, ms. */
  readonly delayMs: number;
  /** Cut into pieces that are sent one by one. */
  readonly split: number;
  /** The connection is reset, and what is under way on it is lost. */
  readonly drop: number;
  /** From here on one direction carries nothing, while both ends stay open. */
  readonly deaf: number;
  /** The station's end is reset, and the server's stays open and hears nothing of it. */
  readonly orphan: number;
  /** Held back until bytes of another connection have gone by. */
  readonly hold: number;
}

export interface Counts {
  connections: number;
  delayed: number;
  split: number;
  dropped: number;
  /** One way only, or open at one end only. */
  halfOpen: number;
  /** Bytes that another connection's went ahead of, or that came after their own connection had ended. */
  reordered: number;
  /** Connections that met a network with no way through. */
  cutOff: number;
}

export const noCounts = (): Counts => ({
  connections: 0,
  delayed: 0,
  split: 0,
  dropped: 0,
  halfOpen: 0,
  reordered: 0,
  cutOff: 0,
});

/** Longest time that a chunk is held for another connection to pass, ms. */
const HOLD_MS = 400;
/** Bytes of one direction that wait here before the sender is held up. */
const BACKLOG_BYTES = 262_144;

/** Where the connections of several proxies meet, so that one can go ahead of another. */
export class Crossing {
  readonly #held = new Map<Connection, (overtaken: boolean) => void>();

  /** Resolves to true once another connection's bytes have gone by; to false after a while without. */
  hold(connection: Connection): Promise<boolean> {
    return new Promise((resolve) => {
      const timer = setTimeout(() => go(false), HOLD_MS);
      const go = (overtaken: boolean) => {
        clearTimeout(timer);
        this.#held.delete(connection);
        resolve(overtaken);
      };
      this.#held.get(connection)?.(false);
      this.#held.set(connection, go);
    });
  }

  passed(by: Connection): void {
    for (const [connection, go] of this.#held) if (connection !== by) go(true);
  }
}

interface Surroundings {
  readonly counts: Counts;
  readonly crossing: Crossing;
  weather(): Weather | null;
}

/** Hangs up with a reset where the system can: a socket that has said its last word is closed as any other. */
function reset(socket: Socket): void {
  if (socket.destroyed) return;
  if (socket.connecting || socket.writableEnded) socket.destroy();
  else socket.resetAndDestroy();
}

class Connection {
  readonly near: Socket;
  readonly far: Socket;
  readonly #around: Surroundings;
  readonly #lanes: readonly Lane[];
  #deaf = false;

  constructor(near: Socket, far: Socket, random: Random, around: Surroundings) {
    this.near = near;
    this.far = far;
    this.#around = around;
    for (const socket of [near, far]) {
      socket.setNoDelay(true);
      socket.on('error', () => undefined); // it closes as well
    }
    const up = new Lane(this, near, far, random, around);
    const down = new Lane(this, far, near, random, around);
    this.#lanes = [up, down];
  }

  get open(): boolean {
    return !this.near.destroyed || !this.far.destroyed;
  }

  reset(): void {
    for (const socket of [this.near, this.far]) reset(socket);
  }

  /** `'up'` and `'down'`: that direction carries nothing any more. `'near'`: the station's end is gone. */
  halfOpen(what: 'up' | 'down' | 'both' | 'near'): void {
    this.#around.counts.halfOpen += 1;
    this.#deaf = true;
    const [up, down] = this.#lanes as [Lane, Lane];
    if (what !== 'down') up.deaf = true;
    if (what !== 'up') down.deaf = true;
    if (what === 'near') reset(this.near);
  }

  /** What was half open cannot be whole again: its lost bytes are lost. */
  endIfDeaf(): void {
    if (this.#deaf) this.reset();
  }
}

/** One direction of a connection: chunks go out in the order in which they came. */
class Lane {
  deaf = false;
  readonly #connection: Connection;
  readonly #from: Socket;
  readonly #to: Socket;
  readonly #random: Random;
  readonly #around: Surroundings;
  readonly #queue: Buffer[] = [];
  #bytes = 0;
  #running = false;

  constructor(connection: Connection, from: Socket, to: Socket, random: Random, around: Surroundings) {
    this.#connection = connection;
    this.#from = from;
    this.#to = to;
    this.#random = random;
    this.#around = around;
    from.on('data', (chunk: Buffer) => this.#take(chunk));
    from.on('close', () => this.#finish());
  }

  #take(chunk: Buffer): void {
    if (this.deaf) return;
    this.#queue.push(chunk);
    this.#bytes += chunk.length;
    if (this.#bytes > BACKLOG_BYTES) this.#from.pause();
    void this.#run();
  }

  async #run(): Promise<void> {
    if (this.#running) return;
    this.#running = true;
    for (let chunk = this.#queue.shift(); chunk; chunk = this.#queue.shift()) {
      this.#bytes -= chunk.length;
      await this.#carry(chunk);
      if (this.#bytes <= BACKLOG_BYTES) this.#from.resume();
    }
    this.#running = false;
    if (this.#from.destroyed) this.#finish();
  }

  async #carry(chunk: Buffer): Promise<void> {
    const { counts, crossing } = this.#around;
    for (const piece of this.#pieces(chunk)) {
      const weather = this.#around.weather();
      if (weather) {
        if (this.#strike(weather)) return;
        const delayMs = this.#random.between(0, weather.delayMs);
        counts.delayed += delayMs >= 1 ? 1 : 0;
        await new Promise((resolve) => setTimeout(resolve, delayMs));
        if (this.#random.next() < weather.hold && (await crossing.hold(this.#connection)))
          counts.reordered += 1;
      }
      if (this.deaf || this.#to.destroyed) return;
      if (this.#from.destroyed) counts.reordered += 1;
      this.#to.write(piece);
      crossing.passed(this.#connection);
    }
  }

  /** @returns whether this chunk goes no further. */
  #strike({ drop, deaf, orphan }: Weather): boolean {
    const chance = this.#random.next();
    if (chance < drop) {
      this.#around.counts.dropped += 1;
      this.#connection.reset();
    } else if (chance < drop + deaf) this.#connection.halfOpen(this.#random.pick(['up', 'down', 'both']));
    else if (chance < drop + deaf + orphan) this.#connection.halfOpen('near');
    else return false;
    return this.deaf || this.#to.destroyed;
  }

  #pieces(chunk: Buffer): Buffer[] {
    const weather = this.#around.weather();
    if (!weather || chunk.length < 2 || this.#random.next() >= weather.split) return [chunk];
    this.#around.counts.split += 1;
    const cuts = Array.from({ length: 1 + Math.floor(this.#random.between(0, 4)) }, () =>
      Math.floor(this.#random.between(1, chunk.length)),
    ).sort((a, b) => a - b);
    return [0, ...cuts]
      .map((from, i) => chunk.subarray(from, cuts[i] ?? chunk.length))
      .filter(({ length }) => length > 0);
  }

  /** The sender's end is gone: the other goes once all that was under way has come there. */
  #finish(): void {
    if (!this.#running && !this.deaf && !this.#to.destroyed) this.#to.end();
  }
}

export class Proxy {
  /** The server's address by way of this network. */
  readonly url: string;
  readonly counts = noCounts();
  readonly #server: Server;
  readonly #connections = new Set<Connection>();
  #weather: Weather | null = null;
  /** No way through: `reset` says so, `silent` takes connections and never answers. */
  #cut: 'reset' | 'silent' | null = null;

  private constructor(server: Server, port: number, target: URL, seed: number, crossing: Crossing) {
    this.#server = server;
    this.url = `http://127.0.0.1:${port}`;
    const around = { counts: this.counts, crossing, weather: () => this.#weather };
    server.on('connection', (near) => {
      this.counts.connections += 1;
      if (this.#cut === 'reset') {
        this.counts.cutOff += 1;
        return reset(near);
      }
      // Each connection has its chances for itself, whatever the others do.
      const random = randomFrom(seed + 7919 * this.counts.connections);
      const far = connect({ host: target.hostname, port: Number(target.port) });
      const connection = new Connection(near, far, random, around);
      this.#connections.add(connection);
      for (const socket of [near, far])
        socket.on('close', () => {
          if (!connection.open) this.#connections.delete(connection);
        });
      if (this.#cut === 'silent') {
        this.counts.cutOff += 1;
        connection.halfOpen('both');
      }
    });
  }

  static async to(url: string, seed: number, crossing = new Crossing()): Promise<Proxy> {
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    return new Proxy(server, (server.address() as AddressInfo).port, new URL(url), seed, crossing);
  }

  /** From now on, for old and new connections. */
  storm(weather: Weather): void {
    this.#weather = weather;
  }

  /** Nothing comes through any more, on old connections or new ones. */
  cut(how: 'reset' | 'silent'): void {
    this.#cut = how;
    for (const connection of this.#connections)
      if (how === 'reset') connection.reset();
      else connection.halfOpen('both');
  }

  /** The station's end of every connection is gone, and the server is not told. */
  orphan(): void {
    for (const connection of this.#connections) if (!connection.near.destroyed) connection.halfOpen('near');
  }

  /** A way through again. What is half open is hung up, unless both ends are to find out for themselves. */
  heal({ hangUp }: { readonly hangUp: boolean } = { hangUp: true }): void {
    this.#cut = null;
    if (hangUp) for (const connection of this.#connections) connection.endIfDeaf();
  }

  /** No more faults. */
  calm(): void {
    this.#weather = null;
  }

  close(): Promise<void> {
    this.#cut = 'reset';
    for (const connection of this.#connections) connection.reset();
    return new Promise((resolve) => this.#server.close(() => resolve()));
  }
}
