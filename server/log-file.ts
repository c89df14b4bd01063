/** The log in a file that does not grow without end: full, it is put aside under a number, and the oldest goes. */
import { closeSync, existsSync, fstatSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';

export interface LogBounds {
  /** Bytes after which a file is put aside. */
  readonly bytes: number;
  /** How many that were put aside are kept: `server.log.1` is the newest. */
  readonly kept: number;
}

/** 100 MB with the present one: weeks of a busy shop. */
const BOUNDS: LogBounds = { bytes: 20_000_000, kept: 4 };

interface OpenFile {
  readonly handle: number;
  readonly isFile: boolean;
  bytes: number;
}

/** Takes whole lines. A log that cannot be written, on a full disk say, is no reason to stop: nothing throws. */
export class LogFile {
  readonly #path: string;
  readonly #bounds: LogBounds;
  #open: OpenFile | undefined;

  constructor(path: string, bounds: LogBounds = BOUNDS) {
    this.#path = path;
    this.#bounds = bounds;
  }

  write(line: string): void {
    try {
      const file = this.#room();
      file.bytes += writeSync(file.handle, line);
    } catch {
      this.close(); // opened again for the next line
    }
  }

  close(): void {
    const open = this.#open;
    this.#open = undefined;
    try {
      if (open) closeSync(open.handle);
    } catch {
      // What it could not take is lost either way.
    }
  }

  /** The file, with room for a line. A device or a pipe is left where it is. */
  #room(): OpenFile {
    const file = (this.#open ??= this.#begin());
    if (!file.isFile || file.bytes < this.#bounds.bytes) return file;
    this.close();
    for (let n = this.#bounds.kept; n > 0; n--) {
      const from = n === 1 ? this.#path : `${this.#path}.${n - 1}`;
      if (existsSync(from)) renameSync(from, `${this.#path}.${n}`);
    }
    return (this.#open = this.#begin());
  }

  #begin(): OpenFile {
    mkdirSync(dirname(this.#path), { recursive: true, mode: 0o700 });
    const handle = openSync(this.#path, 'a', 0o600);
    const stat = fstatSync(handle);
    return { handle, isFile: stat.isFile(), bytes: stat.size };
  }
}
