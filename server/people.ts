/** Names and contacts: beside the sessions, never in them, found by `clientRef`. */
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';

export interface Person {
  readonly ref: string;
  readonly name: string;
  readonly contact: string;
  readonly language: string;
}

const COLUMNS = 'ref, name, contact, language';

/** Lower case without accents, so that "Zoe" finds "Zoë". */
const fold = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

export class People {
  readonly #now: () => number;
  readonly #get;
  readonly #put;
  readonly #search;

  constructor(db: Db, now: () => number) {
    this.#now = now;
    this.#get = db.prepare<[string], Person>(`SELECT ${COLUMNS} FROM people WHERE ref = ?`);
    this.#put = db.prepare<[Person & { folded: string; ms: number }]>(
      `INSERT INTO people (ref, name, contact, language, folded, changed_ms)
       VALUES (@ref, @name, @contact, @language, @folded, @ms)
       ON CONFLICT (ref) DO UPDATE SET name = @name, contact = @contact, language = @language,
         folded = @folded, changed_ms = @ms`,
    );
    this.#search = db.prepare<[string], Person>(
      `SELECT ${COLUMNS} FROM people WHERE instr(folded, ?) > 0 ORDER BY changed_ms DESC LIMIT ${BOUND.people}`,
    );
  }

  get(ref: string): Person | undefined {
    return this.#get.get(ref);
  }

  /** Those whose reference, name or contact holds `text`, the lately changed first; all for an empty one. */
  search(text: string): Person[] {
    return this.#search.all(fold(text.trim()));
  }

  put(person: Person): Person {
    const folded = fold(`${person.ref} ${person.name} ${person.contact}`);
    this.#put.run({ ...person, folded, ms: this.#now() });
    return person;
  }
}
