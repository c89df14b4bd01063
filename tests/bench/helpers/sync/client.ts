/** One station in one session: the same for every server, but for how it speaks. */
import { once } from 'node:events';
import { WebSocket } from 'ws';
import * as Y from 'yjs';
import type { Fact } from '../../../../core/index.ts';
import { STEP } from './speech.ts';
import type { Speech } from './speech.ts';

const REMOTE = Symbol('came from the server');

export interface ClientOptions {
  readonly speech: Speech;
  readonly url: string;
  readonly session: string;
  /** 0 to 2³² − 1. */
  readonly random: number;
  /** Entries of others, as they arrive. */
  onfacts?(facts: readonly Fact[]): void;
}

export class Client {
  readonly doc = new Y.Doc();
  readonly #facts = this.doc.getArray<Fact>('facts');
  readonly #socket: WebSocket;
  readonly #options: ClientOptions;
  #check: () => void = () => undefined;
  #answered = false;
  #own = 0;
  #closed: string | null = null;

  private constructor(options: ClientOptions) {
    const { speech, url, session, random } = options;
    this.#options = options;
    this.doc.clientID = speech.clientId(random);
    this.#socket = new WebSocket(speech.address(url, session), {
      headers: speech.headers(url),
      perMessageDeflate: false,
    });
    this.#socket.on('message', (data: Buffer) => this.#hear(data));
    this.#socket.on('close', (code, reason) => {
      this.#closed = `${code} ${reason.toString()}`;
      this.#check();
    });
    this.doc.on('update', (bytes: Uint8Array, origin: unknown) => {
      if (origin !== REMOTE) this.#say(STEP.update, bytes);
    });
    this.#facts.observe((event) => {
      if (event.transaction.origin !== REMOTE || !options.onfacts) return;
      for (const { insert } of event.changes.delta)
        if (Array.isArray(insert)) options.onfacts(insert as Fact[]);
    });
  }

  /** Resolves when the server has answered with what it holds. */
  static async open(options: ClientOptions): Promise<Client> {
    const client = new Client(options);
    await once(client.#socket, 'open');
    const greeting = options.speech.greeting(options.session);
    if (greeting) client.#socket.send(greeting);
    if (options.speech.answers) await client.settled();
    return client;
  }

  get facts(): number {
    return this.#facts.length;
  }

  /** How many it has added itself. */
  get own(): number {
    return this.#own;
  }

  add(fact: Fact): void {
    this.#own += 1;
    this.#facts.push([fact]);
  }

  /** Sends an update that is not this document's own. */
  send(update: Uint8Array): void {
    this.#say(STEP.update, update);
  }

  /** Asks what the server holds, and resolves with the answer: it has then read all that was said before. */
  async settled(): Promise<void> {
    this.#answered = false;
    this.#say(STEP.state, Y.encodeStateVector(this.doc));
    await this.until(() => this.#answered, 'an answer');
  }

  /** Looks after every message; rejects when the socket closes, or after `limitMs`. */
  until(met: () => boolean, what: string, limitMs = 120_000): Promise<void> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => end(new Error(`waited ${limitMs} ms for ${what}`)), limitMs);
      const end = (error: Error | null) => {
        clearTimeout(timer);
        this.#check = () => undefined;
        if (error) reject(error);
        else resolve();
      };
      this.#check = () => {
        if (met()) end(null);
        else if (this.#closed !== null) end(new Error(`closed while waiting for ${what}: ${this.#closed}`));
      };
      this.#check();
    });
  }

  close(): void {
    this.#socket.terminate();
    this.doc.destroy();
  }

  #say(step: number, body: Uint8Array): void {
    if (this.#socket.readyState === WebSocket.OPEN)
      this.#socket.send(this.#options.speech.frame(this.#options.session, step, body));
  }

  #hear(data: Buffer): void {
    const said = this.#options.speech.read(data);
    if (said?.step === STEP.state) this.#say(STEP.answer, Y.encodeStateAsUpdate(this.doc, said.body));
    else if (said) {
      Y.applyUpdate(this.doc, said.body, REMOTE);
      this.#answered ||= said.step === STEP.answer;
    }
    if (said) this.#check();
  }
}
