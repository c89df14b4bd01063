/** Where the shop's server is reached: its address, its names, its certificate, and what is to be said of them. */
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { ServerCertificate } from './certificates.ts';
import { Renewal } from './renewal.ts';
import type { AuthorityStep } from './renewal.ts';
import { addressesFor } from './machine.ts';
import { announceName, nameCandidates } from './mdns.ts';
import type { OwnName } from './mdns.ts';
import { noticesOf } from './notices.ts';
import type { Notice } from './notices.ts';
import type { Origins } from './origins.ts';
import type { Outside } from './outside.ts';
import type { Trust } from './trust.ts';

export interface SiteOptions {
  readonly port: number;
  readonly data: string;
  readonly plain: boolean;
  /** The name or address that stations use, as the machine's network is now. */
  canonical(): string;
  /** This machine's names and addresses, as they are now. */
  names(): readonly string[];
  /** The name to announce in the network, without `.local`; null for none. */
  readonly mdns: MdnsOptions | null;
  /** Told of what comes up while the server runs. */
  onNotice?(notice: Notice): void;
}

/** What is kept from one start to the next; a write may come to nothing while the disk is full. */
export interface Memory {
  get(key: string): string | undefined;
  set(key: string, value: string): void;
}

export interface MdnsOptions {
  readonly base: string;
  readonly port?: number;
  readonly interface?: string;
}

const CHECK_MS = 60_000;
const bracketed = (name: string): string => (name.includes(':') ? `[${name}]` : name);

export class Site {
  readonly #options: SiteOptions;
  readonly #outside: Outside;
  readonly #log: Logger;
  readonly #renewal: Renewal | null;
  readonly #ownName: OwnNameState;
  readonly origins: Origins & { readonly names: Set<string> };
  /** The one address that stations use; empty until the port is known. */
  address = '';
  #port = 0;
  #memory: Memory | undefined;
  #addressWas: string | null = null;
  #fingerprintWas: string | null = null;
  #timeZone = 'UTC';
  #named: OwnName | undefined;
  #timer: NodeJS.Timeout | undefined;
  #told = new Set<string>();

  private constructor(
    options: SiteOptions,
    outside: Outside,
    log: Logger,
    renewal: Renewal | null,
    ownName: OwnNameState,
  ) {
    this.#options = options;
    this.#outside = outside;
    this.#log = log;
    this.#renewal = renewal;
    this.#ownName = ownName;
    this.origins = {
      scheme: options.plain ? 'http' : 'https',
      names: new Set([...this.#names(), options.canonical()]),
    };
  }

  /** Reads or makes the certificates. Throws `UnusableData` when those there cannot be used. */
  static async open(options: SiteOptions, outside: Outside, log: Logger): Promise<Site> {
    const ownName: OwnNameState = { name: options.mdns ? `${options.mdns.base}.local` : null };
    const renewal = options.plain
      ? null
      : await Renewal.open({
          directory: join(options.data, 'tls'),
          names: () => allNames(options, ownName),
          spare: options.mdns ? nameCandidates(options.mdns.base) : [],
          outside,
          log,
        });
    return new Site(options, outside, log, renewal, ownName);
  }

  /** For the door: the certificate in use, and the question before each connection. */
  get tls(): { cert: string; key: string; fresh: () => Promise<void> | undefined } | null {
    const renewal = this.#renewal;
    return renewal && { ...renewal.current, fresh: () => renewal.fresh() };
  }

  get certificate(): ServerCertificate | null {
    return this.#renewal?.current ?? null;
  }

  /** What hands the authority out, open while `isOpen` says so; null over plain http. */
  trust(isOpen: () => boolean): Trust | null {
    const renewal = this.#renewal;
    if (!renewal) return null;
    const address = () => this.address;
    return {
      isOpen,
      get address() {
        return address();
      },
      get certificates() {
        const { authority, fingerprint, next } = renewal.current;
        return { now: { authority, fingerprint }, next };
      },
    };
  }

  /** Begins to look after address, name and certificate, now that the port is known. `close` ends it. */
  begin(port: number, memory: Memory, timeZone: string, use: (certificate: ServerCertificate) => void): void {
    this.#port = port;
    this.#memory = memory;
    this.#timeZone = timeZone;
    this.#renewal?.onChange((certificate) => {
      memory.set('site.fingerprint', certificate.fingerprint);
      use(certificate);
    });
    this.address = this.#addressNow();
    this.#recall(memory);
    this.#tell(() => undefined);
    const { mdns } = this.#options;
    if (mdns)
      this.#named = announceName({
        ...mdns,
        addresses: addressesFor,
        log: this.#log,
        now: () => this.#outside.now(),
        onName: (name) => void this.#takeName(name),
      });
    this.#timer = setInterval(() => void this.look(), CHECK_MS);
  }

  /** Looks at clock, names and addresses again, and makes anew what is due. Never rejects. */
  async look(): Promise<void> {
    for (const name of this.#names()) this.origins.names.add(name);
    await this.#renewal?.check();
    const address = this.#addressNow();
    // With the network gone for a moment there is nothing to announce: stations find the old address again.
    if (address !== this.address && !/\/\/localhost:/.test(address)) {
      this.#addressWas = this.address;
      this.address = address;
      this.#named?.announce();
      if (this.#options.port !== 0) this.#memory?.set('site.address', address);
    }
    this.#tell((notice) => this.#options.onNotice?.(notice));
  }

  /** What is to be known or done now. */
  notices(): Notice[] {
    return noticesOf({
      nowMs: this.#outside.now(),
      timeZone: this.#timeZone,
      address: this.address,
      addressWas: this.#addressWas,
      fingerprintWas: this.#fingerprintWas,
      certificate: this.certificate,
    });
  }

  /** The address by this machine's own name in the network; null while it has none. */
  byName(): string | null {
    const name = this.#named?.name();
    return name ? `${this.origins.scheme}://${name}:${this.#port}` : null;
  }

  /** Changes the authority as the operator asks; null over plain http. */
  async changeAuthority(step: AuthorityStep): Promise<ServerCertificate | null> {
    if (!this.#renewal) return null;
    const certificate = await this.#renewal.changeAuthority(step);
    this.#fingerprintWas = null; // whoever did this knows
    return certificate;
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.#named?.close();
  }

  #names(): string[] {
    return allNames(this.#options, this.#ownName);
  }

  #addressNow(): string {
    return `${this.origins.scheme}://${bracketed(this.#options.canonical())}:${this.#port}`;
  }

  /** What the stations of this database knew before: it may have been restored on another machine. */
  #recall(memory: Memory): void {
    if (this.#options.port !== 0) {
      this.#addressWas = memory.get('site.address') ?? null;
      memory.set('site.address', this.address);
    }
    const { certificate } = this;
    if (!certificate) return;
    this.#fingerprintWas = memory.get('site.fingerprint') ?? null;
    memory.set('site.fingerprint', certificate.fingerprint);
  }

  async #takeName(name: string): Promise<void> {
    this.#ownName.name = name;
    this.origins.names.add(name);
    await this.#renewal?.check();
  }

  /** Logs each notice once, and passes it to `say`. */
  #tell(say: (notice: Notice) => void): void {
    for (const notice of this.notices()) {
      if (this.#told.has(notice.text)) continue;
      this.#told.add(notice.text);
      this.#log.warn({ notice: notice.code }, notice.text);
      say(notice);
    }
  }
}

interface OwnNameState {
  name: string | null;
}

const allNames = ({ names }: SiteOptions, { name }: OwnNameState): string[] => [
  ...new Set([...names(), ...(name === null ? [] : [name])]),
];
