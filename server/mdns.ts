/**
 * The shop's name in its own network, by multicast DNS (RFC 6762): `fibula.local` leads to this machine without
 * any router knowing it. A comfort and no more: where it cannot be had, a line in the log says so.
 */
import { isIPv4 } from 'node:net';
import makeMulticast from 'multicast-dns';
import type { MulticastDNS, QueryPacket, ResponsePacket } from 'multicast-dns';
import type { Logger } from 'pino';
import { Rate } from './limits.ts';

type Answer = ResponsePacket['answers'][number];
type RecordType = QueryPacket['questions'][number]['type'];

interface AddressRecord {
  readonly type: 'A' | 'AAAA';
  readonly name: string;
  readonly ttl: number;
  readonly flush: boolean;
  readonly data: string;
}

export interface NameOptions {
  /** `fibula` for `fibula.local`. */
  readonly base: string;
  /** This machine's addresses that `asker` can use; all of them for undefined. */
  addresses(asker?: string): readonly string[];
  /** Called with each name that is settled on: the wanted one, or the next that nobody else has. */
  onName(name: string): void;
  readonly log: Logger;
  /** Milliseconds since 1970. */
  now(): number;
  /** UDP port and interface, other than the standard's 5353 on all. */
  readonly port?: number;
  readonly interface?: string;
}

export interface OwnName {
  /** What is answered to now; null before it is settled, and when it could not be had. */
  name(): string | null;
  /** Tells the network after addresses have changed. */
  announce(): void;
  close(): Promise<void>;
}

/** The names that are tried one after the other. */
export const nameCandidates = (base: string): string[] =>
  Array.from({ length: 9 }, (_, index) => (index === 0 ? `${base}.local` : `${base}-${index + 1}.local`));

/** Any record; the library knows it, its types do not. */
const ANY = 'ANY' as RecordType;
const PROBES = 3;
const PROBE_MS = 250;
const TTL_SECONDS = 120;
/** Times that another machine may come with our name before we leave it to the network's owner. */
const QUARRELS = 20;
/** Answers in a second: whoever asks more often has one already. */
const ANSWERS_PER_SECOND = 20;

export function announceName(options: NameOptions): OwnName {
  const { port, interface: one } = options;
  const network = makeMulticast({
    ...(port === undefined ? {} : { port }),
    // Multicast is not heard on a socket that is bound to one address.
    ...(one === undefined ? {} : { interface: one, bind: '0.0.0.0' }),
  });
  return new Announcer(network, options);
}

class Announcer implements OwnName {
  readonly #network: MulticastDNS;
  readonly #options: NameOptions;
  readonly #candidates: readonly string[];
  #at = 0;
  #quarrels = 0;
  /** Probes still to send; 0 once the name is ours. */
  #left = PROBES;
  readonly #answers = new Rate(ANSWERS_PER_SECOND, 1_000);
  #timer: NodeJS.Timeout | undefined;
  #state: 'open' | 'failed' | 'closed' = 'open';

  constructor(network: MulticastDNS, options: NameOptions) {
    this.#network = network;
    this.#options = options;
    this.#candidates = nameCandidates(options.base);
    network.on('error', (error) => this.#fail(error));
    network.on('warning', (error) => options.log.debug({ err: error }, 'multicast'));
    network.on('query', (packet, from) => this.#onQuery(packet, from.address));
    network.on('response', (packet) => this.#onResponse(packet));
    network.on('ready', () => this.#probe());
  }

  name(): string | null {
    return this.#state === 'open' && this.#isSettled ? this.#wanted : null;
  }

  announce(): void {
    if (this.name()) this.#network.respond({ answers: this.#records(this.#options.addresses()) });
  }

  close(): Promise<void> {
    if (this.#state === 'closed') return Promise.resolve();
    const held = this.name();
    this.#state = 'closed';
    clearTimeout(this.#timer);
    const gone = () => new Promise<void>((resolve) => this.#network.destroy(() => resolve()));
    if (!held) return gone();
    // A time to live of 0 says goodbye, so that nobody is sent to a machine that has stopped.
    const answers = this.#records(this.#options.addresses()).map((record) => ({ ...record, ttl: 0 }));
    return new Promise<void>((resolve) => {
      this.#network.respond({ answers }, () => resolve());
    }).then(gone);
  }

  get #wanted(): string {
    return this.#candidates[this.#at]!;
  }

  #records(addresses: readonly string[]): AddressRecord[] {
    return addresses.map((data) => ({
      type: isIPv4(data) ? 'A' : 'AAAA',
      name: this.#wanted,
      ttl: TTL_SECONDS,
      flush: true,
      data,
    }));
  }

  /** Asks whether somebody has the name, saying that we are about to take it. */
  #probe(): void {
    if (this.#state !== 'open') return;
    if (this.#left === 0) return this.#settle();
    this.#left -= 1;
    const authorities = this.#records(this.#options.addresses()).map((record) => ({
      ...record,
      flush: false,
    }));
    const questions = [{ name: this.#wanted, type: ANY }];
    this.#network.query({ questions, authorities });
    this.#timer = setTimeout(() => this.#probe(), PROBE_MS);
  }

  #settle(): void {
    const { log, onName } = this.#options;
    if (this.#at > 0)
      log.warn({ name: this.#wanted, taken: this.#candidates[0] }, 'name taken by another machine');
    else log.info({ name: this.#wanted }, 'name announced');
    this.#timer = undefined;
    onName(this.#wanted);
    this.announce();
  }

  /** Whether the three questions have been asked and the last answer has been waited for. */
  get #isSettled(): boolean {
    return this.#left === 0 && this.#timer === undefined;
  }

  #onQuery(packet: QueryPacket, asker: string): void {
    if (this.#state !== 'open') return;
    // Two machines that reach for one name at once: the later record in order keeps it (RFC 6762, 8.2).
    if (!this.#isSettled && this.#isAfterOurs(packet.authorities ?? [])) return this.#next();
    const isOurs = packet.questions.some(
      ({ name, type }) => name.toLowerCase() === this.#wanted && ['A', 'AAAA', 'ANY'].includes(type),
    );
    if (!this.#isSettled || !isOurs || !this.#answers.take(this.#options.now())) return;
    const answers = this.#records(this.#options.addresses(asker));
    const types = [...new Set(answers.map(({ type }) => type))];
    // Says which kinds of address there are, so that nobody waits for the other.
    const data = { nextDomain: this.#wanted, rrtypes: types };
    const absent: Answer = { type: 'NSEC', name: this.#wanted, ttl: TTL_SECONDS, flush: true, data };
    this.#network.respond({ answers, additionals: [absent] });
  }

  #onResponse(packet: ResponsePacket): void {
    if (this.#state !== 'open' || this.#foreign(packet.answers).length === 0) return;
    if (!this.#isSettled) return this.#next();
    this.#options.log.warn({ name: this.#wanted }, 'another machine answers to our name');
    this.#again();
  }

  /** Addresses that somebody else gives for our name. A responder of this machine's own gives ours. */
  #foreign(records: readonly Answer[]): string[] {
    const ours = new Set(this.#options.addresses());
    return this.#given(records).filter((data) => !ours.has(data));
  }

  #given(records: readonly Answer[]): string[] {
    return records.flatMap((record) =>
      (record.type === 'A' || record.type === 'AAAA') &&
      record.name.toLowerCase() === this.#wanted &&
      record.ttl !== 0
        ? [record.data]
        : [],
    );
  }

  #isAfterOurs(authorities: readonly Answer[]): boolean {
    if (this.#foreign(authorities).length === 0) return false;
    const order = (addresses: readonly string[]) => [...addresses].sort().join();
    return order(this.#given(authorities)) > order(this.#options.addresses());
  }

  #next(): void {
    this.#at += 1;
    if (this.#at >= this.#candidates.length) return this.#fail(new Error('all of our names are taken'));
    this.#again();
  }

  #again(): void {
    clearTimeout(this.#timer);
    this.#quarrels += 1;
    if (this.#quarrels > QUARRELS) return this.#fail(new Error('the name is in dispute'));
    this.#left = PROBES;
    this.#timer = setTimeout(() => this.#probe(), PROBE_MS);
  }

  #fail(error: Error): void {
    if (this.#state !== 'open') return;
    this.#state = 'failed';
    clearTimeout(this.#timer);
    this.#options.log.warn({ err: error, name: this.#options.base }, 'no name by multicast DNS');
  }
}
