/** Names and contacts: beside the sessions, never in them, found by `clientRef`. */
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';
import { fold, range, wordsOf } from './words.ts';

export interface Person {
  readonly ref: string;
  readonly name: string;
  readonly contact: string;
  readonly language: string;
}

const COLUMNS = 'ref, name, contact, language';
/** Known before there were words, or put in by a restore: given theirs so many at a time. */
const AT_ONCE = 500;

export class People {
  readonly #db: Db;
  readonly #now: () => number;
  readonly #get;
  readonly #put;
  readonly #begins;
  readonly #has;
  readonly #unread;
  readonly #clear;
  readonly #word;

  constructor(db: Db, now: () => number) {
    this.#db = db;
    this.#now = now;
    this.#get = db.prepare<[string], Person>(`SELECT ${COLUMNS} FROM people WHERE ref = ?`);
    this.#put = db.prepare<[Person & { folded: string; ms: number }]>(
      `INSERT INTO people (ref, name, contact, language, folded, changed_ms)
       VALUES (@ref, @name, @contact, @language, @folded, @ms)
       ON CONFLICT (ref) DO UPDATE SET name = @name, contact = @contact, language = @language,
         folded = @folded, changed_ms = @ms`,
    );
    this.#begins = db
      .prepare<[string, string], string>('SELECT DISTINCT ref FROM people_words WHERE word >= ? AND word < ?')
      .pluck();
    this.#has = db.prepare<[string], Person>(
      `SELECT ${COLUMNS} FROM people WHERE instr(folded, ?) > 0 ORDER BY changed_ms DESC LIMIT ${BOUND.people}`,
    );
    this.#unread = db.prepare<[], Person>(
      `SELECT ${COLUMNS} FROM people WHERE NOT EXISTS (SELECT 1 FROM people_words WHERE people_words.ref = people.ref)
       LIMIT ${AT_ONCE}`,
    );
    this.#clear = db.prepare<[string]>('DELETE FROM people_words WHERE ref = ?');
    this.#word = db.prepare<[string, string]>('INSERT INTO people_words (word, ref) VALUES (?, ?)');
  }

  get(ref: string): Person | undefined {
    return this.#get.get(ref);
  }

  /**
   * Those of whom every word of `text` begins a word: of the reference, the name or the contact. Where nobody is, those
   * who hold `text` anywhere.
   */
  search(text: string): Person[] {
    const [first, ...others] = wordsOf(text).map((word) => new Set(this.#begins.all(...range(word))));
    const refs = first ? [...first].filter((ref) => others.every((other) => other.has(ref))) : [];
    const folded = fold(text.trim());
    return refs.length === 0 ? this.#has.all(folded) : this.#latest(refs);
  }

  put(person: Person): Person {
    const folded = foldedOf(person);
    this.#db
      .transaction(() => {
        this.#put.run({ ...person, folded, ms: this.#now() });
        this.#note(person);
      })
      .immediate();
    return person;
  }

  /** Gives words to some who have none. @returns how many. Throws when the disk will not have it. */
  noteSome(): number {
    const unread = this.#unread.all();
    const refold = this.#db.prepare<[string, string]>('UPDATE people SET folded = ? WHERE ref = ?');
    if (unread.length > 0)
      this.#db
        .transaction(() => {
          for (const person of unread) {
            refold.run(foldedOf(person), person.ref);
            this.#note(person);
          }
        })
        .immediate();
    return unread.length;
  }

  #note(person: Person): void {
    this.#clear.run(person.ref);
    for (const word of wordsOf(said(person))) this.#word.run(word, person.ref);
  }

  /** The lately changed first. */
  #latest(refs: readonly string[]): Person[] {
    return this.#db
      .prepare<[string], Person>(
        `SELECT ${COLUMNS} FROM people WHERE ref IN (SELECT value FROM json_each(?))
         ORDER BY changed_ms DESC LIMIT ${BOUND.people}`,
      )
      .all(JSON.stringify(refs));
  }
}

const said = ({ ref, name, contact }: Person): string => `${ref} ${name} ${contact}`;
const foldedOf = (person: Person): string => fold(said(person));
