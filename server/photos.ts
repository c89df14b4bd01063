/** Photos of sessions: beside the log, found by session and the SHA-256 of their bytes, bare of all but the picture. */
import { createHash } from 'node:crypto';
import { bare, LIMIT } from '../core/index.ts';
import type { PhotoType } from '../core/index.ts';
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';

export interface StoredPhoto {
  readonly sha256: string;
  readonly type: PhotoType;
  readonly bytes: Buffer;
}

export type Put =
  | { readonly ok: true; readonly photo: Omit<StoredPhoto, 'bytes'> & { readonly length: number } }
  | { readonly ok: false; readonly why: 'unknown' | 'broken' | 'too-large' | 'session-full' | 'full' };

export class Photos {
  readonly #now: () => number;
  readonly #get;
  readonly #has;
  readonly #count;
  readonly #all;
  readonly #put;
  readonly #remove;

  constructor(db: Db, now: () => number) {
    this.#now = now;
    this.#get = db.prepare<[string, string], StoredPhoto>(
      'SELECT sha256, type, bytes FROM photos WHERE session = ? AND sha256 = ?',
    );
    this.#has = db
      .prepare<[string, string], number>('SELECT 1 FROM photos WHERE session = ? AND sha256 = ?')
      .pluck();
    this.#count = db.prepare<[string], number>('SELECT count(*) FROM photos WHERE session = ?').pluck();
    this.#all = db.prepare<[], number>('SELECT coalesce(sum(length), 0) FROM photos').pluck();
    this.#put = db.prepare<[string, string, string, number, number, Uint8Array]>(
      'INSERT INTO photos (session, sha256, type, length, stored_ms, bytes) VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#remove = db.prepare<[string, string]>('DELETE FROM photos WHERE session = ? AND sha256 = ?');
  }

  get(session: string, sha256: string): StoredPhoto | undefined {
    return this.#get.get(session, sha256);
  }

  /**
   * Keeps the picture of a file and nothing else that is in it, under the SHA-256 of what is kept. One that is there
   * already is no fault. Throws when the disk does not take it.
   */
  put(session: string, file: Uint8Array): Put {
    const read = bare(file);
    if (!read.ok) return read;
    const { type, bytes } = read.photo;
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    if (!this.#has.get(session, sha256)) {
      if (this.#count.get(session)! >= LIMIT.photosPerSession) return { ok: false, why: 'session-full' };
      if (this.#all.get()! + bytes.length > BOUND.photosBytes) return { ok: false, why: 'full' };
      this.#put.run(session, sha256, type, bytes.length, this.#now(), bytes);
    }
    return { ok: true, photo: { sha256, type, length: bytes.length } };
  }

  /** Whether it was there. */
  remove(session: string, sha256: string): boolean {
    return this.#remove.run(session, sha256).changes > 0;
  }
}

/** Photos of a session as an export holds them, the oldest first. */
export const exportedPhotos = (db: Db, session: string) =>
  db
    .prepare<[string], StoredPhoto>(
      'SELECT sha256, type, bytes FROM photos WHERE session = ? ORDER BY stored_ms, sha256',
    )
    .all(session)
    .map(({ sha256, type, bytes }) => ({ sha256, type, base64: bytes.toString('base64') }));

/** Of every session named; inside the caller's transaction. */
export function erasePhotos(db: Db, session: string): void {
  db.prepare('DELETE FROM photos WHERE session = ?').run(session);
}
