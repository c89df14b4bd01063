/** The shop's repeatability studies: a row each, and what a setting was set to by one. */
import { isFinished, StudyShape } from '../core/index.ts';
import type { Study } from '../core/index.ts';
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';

/** A setting that a study has set: from what to what, at which desk, ms since 1970. */
export interface StudyUse {
  readonly setting: string;
  /** Null: the default stood, `standard`. */
  readonly was: number | null;
  readonly standard: number;
  readonly is: number;
  readonly by: string;
  readonly atMs: number;
}
export interface KeptStudy {
  readonly id: string;
  readonly study: Study;
  readonly used: StudyUse | null;
}

interface Row {
  readonly id: string;
  readonly json: string;
  readonly used: string | null;
}

export class Studies {
  readonly #now: () => number;
  readonly #all;
  readonly #get;
  readonly #count;
  readonly #put;
  readonly #use;

  constructor(db: Db, now: () => number) {
    this.#now = now;
    this.#all = db.prepare<[], Row>('SELECT id, json, used FROM studies ORDER BY changed_ms DESC');
    this.#get = db.prepare<[string], Row>('SELECT id, json, used FROM studies WHERE id = ?');
    this.#count = db.prepare<[], number>('SELECT count(*) FROM studies').pluck();
    this.#put = db.prepare<[{ id: string; json: string; ms: number }]>(
      `INSERT INTO studies (id, json, changed_ms) VALUES (@id, @json, @ms)
       ON CONFLICT (id) DO UPDATE SET json = @json, changed_ms = @ms`,
    );
    this.#use = db.prepare<[string, string]>('UPDATE studies SET used = ? WHERE id = ?');
  }

  /** Lately changed first. A row of a newer program that does not fit here is left in its place, unseen. */
  all(): KeptStudy[] {
    return this.#all.all().flatMap((row) => this.#read(row) ?? []);
  }

  get(id: string): KeptStudy | null {
    const row = this.#get.get(id);
    return row ? this.#read(row) : null;
  }

  /** `finished`: it holds all its readings, and they are other ones; `full`: there would be too many. */
  put(id: string, study: Study): 'kept' | 'finished' | 'full' {
    const known = this.#get.get(id);
    const json = JSON.stringify(study);
    if (known?.json === json) return 'kept';
    if (!known && this.#count.get()! >= BOUND.studies) return 'full';
    const before = known ? this.#read(known) : null;
    if (known && (!before || isFinished(before.study))) return 'finished';
    this.#put.run({ id, json, ms: this.#now() });
    return 'kept';
  }

  use(id: string, use: StudyUse): void {
    this.#use.run(JSON.stringify(use), id);
  }

  #read({ id, json, used }: Row): KeptStudy | null {
    const read = StudyShape.safeParse(JSON.parse(json));
    return read.success
      ? { id, study: read.data, used: used === null ? null : (JSON.parse(used) as StudyUse) }
      : null;
  }
}
