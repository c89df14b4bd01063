/**
 * What must stay undone: erasures of personal data, ended tokens, and the generations that restores began. One
 * line of JSON each in a file beside the database, only ever added to and on disk before anything is done, so
 * that a restore from an older copy does it again. No names: hashes, random session ids and numbers.
 */
import { createHash } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readFileSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { z } from 'zod';
import { syncDirectory, UnusableData } from './schema.ts';

const hex = z.string().regex(/^[0-9a-f]{64}$/);
const head = { n: z.int().min(1), atMs: z.number() };
const Entry = z.discriminatedUnion('do', [
  // `client`: SHA-256 of the client's reference. `sessions`: those known when it was erased.
  z.strictObject({ ...head, do: z.literal('erase'), client: hex, sessions: z.array(z.string()) }),
  // `token`: SHA-256 of the token, as the table of stations keeps it; `revoked` by the desk, else replaced.
  z.strictObject({ ...head, do: z.literal('end-token'), token: hex, revoked: z.boolean() }),
  z.strictObject({ ...head, do: z.literal('restore'), generation: z.int().min(1) }),
]);
export type LedgerEntry = z.infer<typeof Entry>;
type WithoutHead<T> = T extends unknown ? Omit<T, 'n' | 'atMs'> : never;

export const ledgerPath = (directory: string): string => join(directory, 'ledger.jsonl');
export const hashOf = (text: string): string => createHash('sha256').update(text).digest('hex');

export class Ledger {
  readonly #path: string;
  readonly #now: () => number;
  readonly #entries: LedgerEntry[];
  /** Bytes of whole lines. */
  #whole: number;
  #file: number | undefined;
  #after = 0;

  /**
   * Reads the ledger of a data directory, of which the caller holds the lock; the file is made when the first
   * line is written. A last line without an end was never confirmed and is dropped; any other that cannot be
   * read throws `UnusableData`.
   */
  constructor(directory: string, now: () => number) {
    this.#path = ledgerPath(directory);
    this.#now = now;
    const bytes = existsSync(this.#path) ? readFileSync(this.#path) : Buffer.alloc(0);
    this.#whole = bytes.lastIndexOf('\n') + 1;
    this.#entries = read(bytes.subarray(0, this.#whole).toString('utf8'), this.#path);
  }

  /** Entries after the first `n`. */
  after(n: number): readonly LedgerEntry[] {
    return this.#entries.filter((entry) => entry.n > n);
  }

  /** Number of the last entry; 0 for none. */
  get last(): number {
    return this.#entries.at(-1)?.n ?? 0;
  }

  /** The greatest generation that a restore began; 0 for none. */
  get generation(): number {
    return Math.max(0, ...this.#entries.map((entry) => (entry.do === 'restore' ? entry.generation : 0)));
  }

  /** New entries get numbers greater than `n`: what a database has done may stand in a ledger that was lost. */
  startAfter(n: number): void {
    this.#after = Math.max(this.#after, n);
  }

  /** Adds an entry, on disk when it returns. Throws when the disk will not take it. */
  append(entry: WithoutHead<LedgerEntry>): LedgerEntry {
    const added = { n: Math.max(this.last, this.#after) + 1, atMs: this.#now(), ...entry } as LedgerEntry;
    const line = Buffer.from(`${JSON.stringify(added)}\n`);
    try {
      const file = (this.#file ??= this.#open());
      if (writeSync(file, line) !== line.length) throw new Error(`${this.#path} could not be written.`);
      fsyncSync(file);
    } catch (error) {
      this.close(); // opened again, half a line is cut off
      throw error;
    }
    this.#whole += line.length;
    this.#entries.push(added);
    return added;
  }

  close(): void {
    if (this.#file !== undefined) closeSync(this.#file);
    this.#file = undefined;
  }

  #open(): number {
    const isNew = !existsSync(this.#path);
    const file = openSync(this.#path, 'a', 0o600);
    if (isNew) syncDirectory(dirname(this.#path));
    else ftruncateSync(file, this.#whole);
    return file;
  }
}

function read(text: string, path: string): LedgerEntry[] {
  return text
    .split('\n')
    .slice(0, -1)
    .map((line, index) => {
      try {
        return Entry.parse(JSON.parse(line));
      } catch (error) {
        throw new UnusableData(
          `${path}, line ${index + 1}, cannot be read. It says what was erased and who was locked out: put a good copy of it back.`,
          { cause: error },
        );
      }
    });
}
