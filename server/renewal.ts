/** Keeps the certificate in use good while the server runs: before it ends, and when the machine's names change. */
import type { Logger } from 'pino';
import { renewAuthority, serverCertificate } from './certificates.ts';
import type { ServerCertificate } from './certificates.ts';
import type { Outside } from './outside.ts';

export interface RenewalOptions {
  /** Where certificates are kept. */
  readonly directory: string;
  /** This machine's names and addresses as they are now. */
  names(): readonly string[];
  /** Names that a new authority may vouch for besides. */
  readonly spare: readonly string[];
  readonly outside: Outside;
  readonly log: Logger;
}

export type AuthorityStep = 'prepare' | 'switch' | 'renew';

/** Milliseconds before a renewal that failed is tried again. */
const PATIENCE_MS = 60_000;

export class Renewal {
  readonly #options: RenewalOptions;
  #current: ServerCertificate;
  #work: Promise<void> = Promise.resolve();
  #isBusy = false;
  #failedMs = Number.NEGATIVE_INFINITY;
  #use: (certificate: ServerCertificate) => void = () => undefined;

  private constructor(options: RenewalOptions, current: ServerCertificate) {
    this.#options = options;
    this.#current = current;
  }

  /** Throws `UnusableData` when the files do not fit together. */
  static async open(options: RenewalOptions): Promise<Renewal> {
    const { directory, names, outside, spare, log } = options;
    // On a full disk the shop needs its server all the same; writing it is tried again every minute.
    const unwritten = (error: unknown) =>
      log.error({ err: error }, 'the new certificate could not be written; it is used from memory');
    return new Renewal(options, await serverCertificate(directory, names(), outside, spare, unwritten));
  }

  get current(): ServerCertificate {
    return this.#current;
  }

  /** `use` is told of every certificate that takes the place of the one before. */
  onChange(use: (certificate: ServerCertificate) => void): void {
    this.#use = use;
  }

  /**
   * Asked for every connection, since a machine that slept for a year is woken by one. Undefined when all is
   * well, as nearly always; else settles once the certificate is good again, or could not be made so.
   */
  fresh(): Promise<void> | undefined {
    const now = this.#options.outside.now();
    if (now < this.#current.renewMs && now >= this.#current.beginsMs) return undefined;
    if (this.#isClockWrong(now) || Math.abs(now - this.#failedMs) < PATIENCE_MS) return undefined;
    return this.check();
  }

  /** Makes a new certificate where one is due. Never rejects. */
  check(): Promise<void> {
    if (!this.#isBusy) {
      this.#isBusy = true;
      this.#work = this.#renew().finally(() => (this.#isBusy = false));
    }
    return this.#work;
  }

  /** Changes the authority as `step` says, then the certificate under it. Rejects when files cannot be written. */
  async changeAuthority(step: AuthorityStep): Promise<ServerCertificate> {
    await this.#work;
    const { directory, names, spare, outside, log } = this.#options;
    await renewAuthority(directory, step, [...new Set([...names(), ...spare])], outside);
    this.#take(await serverCertificate(directory, names(), outside, spare));
    log.warn({ step, fingerprint: this.#current.fingerprint }, 'authority changed by the operator');
    return this.#current;
  }

  #isClockWrong(now: number): boolean {
    return now < this.#current.authorityBeginsMs;
  }

  async #renew(): Promise<void> {
    const { directory, names, spare, outside, log } = this.#options;
    try {
      const { fingerprint } = this.#current;
      this.#take(await serverCertificate(directory, names(), outside, spare));
      if (fingerprint !== this.#current.fingerprint)
        log.warn({ was: fingerprint, now: this.#current.fingerprint }, 'the authority is another one now');
      this.#failedMs = Number.NEGATIVE_INFINITY;
    } catch (error) {
      this.#failedMs = outside.now();
      log.error({ err: error }, 'the certificate could not be renewed');
    }
  }

  #take(certificate: ServerCertificate): void {
    const isNew = certificate.cert !== this.#current.cert;
    this.#current = certificate;
    if (!isNew) return;
    this.#options.log.info({ until: new Date(certificate.endsMs).toISOString() }, 'certificate renewed');
    this.#use(certificate);
  }
}
