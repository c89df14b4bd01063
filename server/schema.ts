/** The database file: its tables, its version, and the settings that make a commit a commit. */
import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { BOUND } from './limits.ts';
import { Said } from './said.ts';

export type Db = Database.Database;

/** "FIBU": tells our files from any other SQLite database. */
export const APPLICATION_ID = 0x46494255;

/** Format 1. A new database is made in this format and then brought up by `UPGRADES`, like any older one. */
const TABLES = `
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;

-- One session in one generation. last_n is the number of its newest row in updates.
CREATE TABLE documents (
  id INTEGER PRIMARY KEY,
  session TEXT NOT NULL,
  generation INTEGER NOT NULL,
  last_n INTEGER NOT NULL,
  opened_ms INTEGER NOT NULL,
  last_ms INTEGER NOT NULL,
  closed INTEGER NOT NULL DEFAULT 0,
  job TEXT,
  UNIQUE (session, generation)
) STRICT;
CREATE INDEX documents_open ON documents (closed) WHERE closed = 0;

-- Yjs updates in the order of their commits. Compaction joins the oldest rows into one.
CREATE TABLE updates (
  document INTEGER NOT NULL REFERENCES documents (id),
  n INTEGER NOT NULL,
  committed_ms INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  PRIMARY KEY (document, n)
) STRICT, WITHOUT ROWID;

-- When each fact was committed, by the server's clock; kept apart so that compaction loses no time.
CREATE TABLE facts (
  document INTEGER NOT NULL REFERENCES documents (id),
  id TEXT NOT NULL,
  committed_ms INTEGER NOT NULL,
  PRIMARY KEY (document, id)
) STRICT, WITHOUT ROWID;

-- AUTOINCREMENT: a number is never given twice, not even after its row has gone.
CREATE TABLE stations (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  device TEXT UNIQUE,
  name TEXT NOT NULL,
  roles TEXT NOT NULL,
  token_hash BLOB UNIQUE,
  paired_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE codes (code TEXT PRIMARY KEY, roles TEXT NOT NULL, expires_ms INTEGER NOT NULL) STRICT, WITHOUT ROWID;

-- Names and contacts live here and nowhere else, so that they can be erased.
CREATE TABLE people (
  ref TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  contact TEXT NOT NULL,
  language TEXT NOT NULL,
  folded TEXT NOT NULL,
  changed_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
`;

/** What brings a database of format n to n + 1, the first from 1 to 2. Added to at the end, and never changed. */
const UPGRADES: readonly string[] = [
  `
-- revoked_ms: when the desk ended this station's token; the hash stays, so that it can be told so.
ALTER TABLE stations ADD COLUMN revoked_ms INTEGER;
ALTER TABLE stations ADD COLUMN seen_ms INTEGER;

-- Entries that a revoked station still held. Nothing of them is in a session until the desk takes them in.
CREATE TABLE quarantine (
  id INTEGER PRIMARY KEY,
  station INTEGER NOT NULL,
  session TEXT NOT NULL,
  fact TEXT NOT NULL,
  state TEXT NOT NULL,
  reason TEXT,
  json TEXT,
  bytes INTEGER NOT NULL,
  handed_ms INTEGER NOT NULL,
  decided_ms INTEGER,
  UNIQUE (station, session, fact)
) STRICT;
`,
  `
-- The clientRef of session.opened, by which one client's sessions are found; NULL until it has been read.
ALTER TABLE documents ADD COLUMN client TEXT;
CREATE INDEX documents_client ON documents (client);

-- Sessions whose personal texts were erased; also ones that this database has never held.
CREATE TABLE erased (session TEXT PRIMARY KEY, erased_ms INTEGER NOT NULL) STRICT, WITHOUT ROWID;
`,
  `
-- Checksum of the row (server/rows.ts); NULL in a row of an older program until it has been read and was good.
ALTER TABLE updates ADD COLUMN sum INTEGER;
CREATE INDEX updates_without_sum ON updates (document) WHERE sum IS NULL;
`,
  `
-- Photos of a session by the SHA-256 of their bytes, in hexadecimal. Personal: erased with the client's texts.
CREATE TABLE photos (
  session TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  type TEXT NOT NULL,
  length INTEGER NOT NULL,
  stored_ms INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  PRIMARY KEY (session, sha256)
) STRICT;
`,
  `
-- The shop's catalogue of boots. key: the model's name without what does not tell two names apart (core/record/models.ts).
CREATE TABLE models (key TEXT PRIMARY KEY, json TEXT NOT NULL, changed_ms INTEGER NOT NULL) STRICT, WITHOUT ROWID;
`,
  `
-- What the sessions teach (core/guide/lessons.ts). It follows from the facts: where generation and last_n are not the
-- document's, it is worked out again. Nothing in it says who somebody is.
CREATE TABLE lessons (
  session TEXT PRIMARY KEY,
  generation INTEGER NOT NULL,
  last_n INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- One boot in one session. model: key of its name; boot: the same in two sessions where its tag is. k, weight: the
-- response measured there and one over its variance. leg: where the leg stood, JSON; NULL once it is erased.
CREATE TABLE lesson_boots (
  session TEXT NOT NULL,
  side TEXT NOT NULL,
  model TEXT NOT NULL,
  name TEXT NOT NULL,
  boot TEXT NOT NULL,
  tag TEXT,
  opened_ms INTEGER NOT NULL,
  k REAL NOT NULL,
  weight REAL NOT NULL,
  pairs INTEGER NOT NULL,
  first_enough INTEGER,
  leg TEXT,
  stops TEXT NOT NULL,
  PRIMARY KEY (session, side)
) STRICT, WITHOUT ROWID;
CREATE INDEX lesson_boots_measured ON lesson_boots (model, boot, session, k, weight, pairs, name) WHERE weight > 0;

-- One move, read before and after. state: used, asked (far off, nobody has decided), kept or out (somebody has).
CREATE TABLE lesson_pairs (
  session TEXT NOT NULL,
  side TEXT NOT NULL,
  before TEXT NOT NULL,
  after TEXT NOT NULL,
  model TEXT NOT NULL,
  opened_ms INTEGER NOT NULL,
  predicted_mm REAL NOT NULL,
  observed_mm REAL NOT NULL,
  sd_mm REAL NOT NULL,
  state TEXT NOT NULL,
  PRIMARY KEY (session, side, before, after)
) STRICT, WITHOUT ROWID;
CREATE INDEX lesson_pairs_model ON lesson_pairs (model, opened_ms);
CREATE INDEX lesson_pairs_far_off ON lesson_pairs (opened_ms) WHERE state != 'used';

-- What people decided on pairs that are far off. The newest counts; the older ones stay to be read.
CREATE TABLE lesson_choices (
  id INTEGER PRIMARY KEY,
  session TEXT NOT NULL,
  before TEXT NOT NULL,
  after TEXT NOT NULL,
  choice TEXT NOT NULL,
  reason TEXT,
  station TEXT NOT NULL,
  name TEXT NOT NULL,
  decided_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX lesson_choices_pair ON lesson_choices (session, before, after);
`,
  `
-- What a session is shown as where it is found (server/session-words.ts); NULL until it has been read for that.
ALTER TABLE documents ADD COLUMN shown TEXT;
CREATE INDEX documents_without_shown ON documents (id) WHERE shown IS NULL;

-- Words that sessions and people are found by, as server/words.ts spells them. Ordinary tables, so that a row that is
-- deleted is overwritten; names are in people_words and go with their person, whoever deletes it.
CREATE TABLE session_words (
  word TEXT NOT NULL,
  document INTEGER NOT NULL,
  PRIMARY KEY (word, document)
) STRICT, WITHOUT ROWID;
CREATE INDEX session_words_document ON session_words (document);
CREATE TABLE people_words (word TEXT NOT NULL, ref TEXT NOT NULL, PRIMARY KEY (word, ref)) STRICT, WITHOUT ROWID;
CREATE INDEX people_words_ref ON people_words (ref);
CREATE TRIGGER session_words_go AFTER DELETE ON documents
  BEGIN DELETE FROM session_words WHERE document = OLD.id; END;
CREATE TRIGGER people_words_go AFTER DELETE ON people
  BEGIN DELETE FROM people_words WHERE ref = OLD.ref; END;
`,
  `
-- Repeatability studies of the shop (core/record/study.ts). used: by whom, when and from what a setting was set by one.
CREATE TABLE studies (id TEXT PRIMARY KEY, json TEXT NOT NULL, used TEXT, changed_ms INTEGER NOT NULL) STRICT, WITHOUT ROWID;
`,
  `
-- Each session's way through the shop (core/guide/turns.ts), with the server's commit times: the turns of its stations,
-- and when it was done. It follows from the facts, like the lessons, and is taken whenever those are; all are due anew.
CREATE TABLE turns (
  session TEXT NOT NULL,
  n INTEGER NOT NULL,
  work TEXT NOT NULL,
  turn_ms INTEGER NOT NULL,
  begun_ms INTEGER NOT NULL,
  ended_ms INTEGER NOT NULL,
  done INTEGER NOT NULL,
  PRIMARY KEY (session, n)
) STRICT, WITHOUT ROWID;
CREATE INDEX turns_done ON turns (work, ended_ms) WHERE done = 1;
CREATE TABLE journeys (
  session TEXT PRIMARY KEY,
  service TEXT NOT NULL,
  opened_ms INTEGER NOT NULL,
  promised_ms INTEGER,
  worked_ms INTEGER,
  closed_ms INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX journeys_opened ON journeys (opened_ms, service);
CREATE INDEX journeys_closed ON journeys (closed_ms) WHERE closed_ms IS NOT NULL;
DELETE FROM lessons;
`,
  `
-- What the shop's numbers count (core/guide/tally.ts), beside each session's way and taken with it; all are due anew.
-- left_as: handed or unfit, at closed_ms; NULL while it is here.
ALTER TABLE journeys ADD COLUMN left_as TEXT;
DROP INDEX journeys_closed;
CREATE INDEX journeys_left ON journeys (closed_ms, left_as, service, worked_ms) WHERE closed_ms IS NOT NULL;
CREATE INDEX journeys_here ON journeys (opened_ms) WHERE closed_ms IS NULL;
CREATE TABLE closed_cuffs (
  session TEXT NOT NULL,
  side TEXT NOT NULL,
  decision TEXT NOT NULL,
  moves INTEGER NOT NULL,
  closed_ms INTEGER NOT NULL,
  PRIMARY KEY (session, side)
) STRICT, WITHOUT ROWID;
CREATE INDEX closed_cuffs_when ON closed_cuffs (closed_ms, decision, moves);
CREATE INDEX turns_ended ON turns (ended_ms, work, turn_ms, begun_ms) WHERE done = 1;
DELETE FROM lessons;
`,
];

/** The first format in which rows have a checksum. */
export const FORMAT_WITH_SUMS = 4;

/** Raised by every upgrade of the tables. */
export const FORMAT = 1 + UPGRADES.length;

/** A data directory that cannot be used. The message is one sentence for the person at the console. */
export class UnusableData extends Said {}

/** Makes what was created or renamed in `directory` survive a loss of power. */
export function syncDirectory(directory: string): void {
  if (process.platform === 'win32') return; // a directory cannot be opened there
  const handle = openSync(directory, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Opens or creates `fibula.db` in `directory`. Throws `UnusableData` rather than run on anything less than asked. */
export function openDatabase(directory: string): Db {
  return openDatabaseFile(join(directory, 'fibula.db'));
}

/** The same for a file of any name. */
export function openDatabaseFile(path: string): Db {
  if (!existsSync(path)) create(path);
  let db: Db | undefined;
  try {
    db = new Database(path, { timeout: BOUND.busyMs });
    checkOurs(db, path);
    secure(db, path);
    const format = db.pragma('user_version', { simple: true }) as number;
    if (format < FORMAT) db.transaction(() => upgrade(db!, format)).immediate();
    return db;
  } catch (error) {
    db?.close();
    if (error instanceof Database.SqliteError)
      throw new UnusableData(`${path} cannot be used: ${error.message} (${error.code}).`, { cause: error });
    throw error;
  }
}

/**
 * A new database gets its name when it is whole: a file of that name without our tables is never one that was just
 * begun, but one that something has happened to.
 */
function create(path: string): void {
  const begun = `${path}.new`;
  let db: Db | undefined;
  try {
    for (const end of ['', '-journal']) rmSync(begun + end, { force: true });
    db = new Database(begun);
    db.pragma('synchronous = FULL');
    db.transaction(() => {
      db!.exec(TABLES);
      db!.pragma(`application_id = ${APPLICATION_ID}`);
      upgrade(db!, 1);
    }).immediate();
    db.close();
    renameSync(begun, path);
    syncDirectory(dirname(path));
  } catch (error) {
    db?.close();
    throw new UnusableData(`${path} cannot be made: ${(error as Error).message}.`, { cause: error });
  }
}

/** Asked before anything is changed: another program's file keeps even its kind of journal. */
function checkOurs(db: Db, path: string): void {
  if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID)
    throw new UnusableData(`${path} is a database of another program.`);
  const format = db.pragma('user_version', { simple: true }) as number;
  if (format > FORMAT)
    throw new UnusableData(
      `${path} was written by a newer Fibula (format ${format}); this one reads up to format ${FORMAT}.`,
    );
}

/** FULL is set and read back at every open: SQLite falls back to NORMAL on a reopened WAL file. */
function secure(db: Db, path: string): void {
  const mode = db.pragma('journal_mode = WAL', { simple: true });
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  // What is deleted is overwritten, so that an erased text is not left in a free page.
  db.pragma('secure_delete = ON');
  const level = db.pragma('synchronous', { simple: true });
  if (mode !== 'wal' || level !== 2)
    throw new UnusableData(
      `${path} cannot be kept safely: journal is ${String(mode)} (wanted wal), synchronous is ${String(level)} (wanted 2).`,
    );
}

/** All the steps or none: the caller's transaction holds them together. */
function upgrade(db: Db, format: number): void {
  for (const step of UPGRADES.slice(format - 1)) db.exec(step);
  db.pragma(`user_version = ${FORMAT}`);
}
