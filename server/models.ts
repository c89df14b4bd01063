/** The shop's catalogue of boots: one row a model, by the name that a person would call the same. */
import { readBoot, sameModel } from '../core/index.ts';
import type { CatalogueBoot } from '../core/index.ts';
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';

export class Models {
  readonly #now: () => number;
  readonly #all;
  readonly #put;
  readonly #remove;
  readonly #transaction;

  constructor(db: Db, now: () => number) {
    this.#now = now;
    this.#all = db.prepare<[], string>('SELECT json FROM models ORDER BY key').pluck();
    this.#put = db.prepare<[{ key: string; json: string; ms: number }]>(
      `INSERT INTO models (key, json, changed_ms) VALUES (@key, @json, @ms)
       ON CONFLICT (key) DO UPDATE SET json = @json, changed_ms = @ms`,
    );
    this.#remove = db.prepare<[string]>('DELETE FROM models WHERE key = ?');
    this.#transaction = db.transaction((boots: readonly CatalogueBoot[]) => {
      for (const boot of boots) this.#put.run({ ...this.#row(boot), ms: this.#now() });
    });
  }

  /** In the order of their names. A row of a newer program that does not fit here is left in its place, unseen. */
  all(): CatalogueBoot[] {
    return this.#all.all().flatMap((json) => {
      const read = readBoot(JSON.parse(json));
      return read.ok ? [read.boot] : [];
    });
  }

  /** All of them or none. How many took the place of one of the same name; null: there would be too many. */
  put(boots: readonly CatalogueBoot[]): number | null {
    const known = new Set(this.all().map(({ model }) => sameModel(model)));
    const replaced = boots.filter(({ model }) => known.has(sameModel(model))).length;
    for (const { model } of boots) known.add(sameModel(model));
    if (known.size > BOUND.models) return null;
    this.#transaction(boots);
    return replaced;
  }

  /** False when there is none of that name. */
  remove(model: string): boolean {
    return this.#remove.run(sameModel(model)).changes > 0;
  }

  #row(boot: CatalogueBoot) {
    return { key: sameModel(boot.model), json: JSON.stringify(boot) };
  }
}
