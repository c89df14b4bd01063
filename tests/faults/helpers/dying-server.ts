/**
 * The real server with one fault built in, for tests alone: it kills itself at a chosen point, or its commits fail.
 * `FIBULA_FAULT` is a `Fault` in JSON. Everything else is `server/main.ts` as it is.
 */
import Database from 'better-sqlite3';
import { BOUND } from '../../../server/limits.ts';
import { SessionRoom } from '../../../server/room.ts';
import { Store } from '../../../server/store.ts';
import type { Fault } from './fault.ts';

const fault = JSON.parse(process.env['FIBULA_FAULT']!) as Fault;

/** No handler runs, nothing is flushed: what a kill from outside does, at a point that can be chosen. */
function die(): never {
  process.kill(process.pid, 'SIGKILL');
  for (;;); // the signal may take a moment to arrive
}

let commits = 0;
/** What is under way in the database, if it is of interest. */
let doing: 'commit' | 'compaction' | null = null;
const isTheOne = () => doing === 'commit' && commits === fault.at;

const { commit, compact } = Store.prototype;
Store.prototype.commit = function (rows) {
  commits += 1;
  doing = 'commit';
  if (fault.is === 'before-commit' && isTheOne()) die();
  try {
    const ms = commit.call(this, rows);
    if (fault.is === 'after-commit' && isTheOne()) die();
    return ms;
  } finally {
    doing = null;
  }
};
Store.prototype.compact = function (document, upTo, bytes) {
  doing = 'compaction';
  try {
    compact.call(this, document, upTo, bytes);
  } finally {
    doing = null;
  }
};

/** Behind the last statement and before COMMIT; or, for a compaction, behind its first row that is deleted. */
const { transaction } = Database.prototype;
Database.prototype.transaction = function (this: Database.Database, work: (...args: unknown[]) => unknown) {
  return transaction.call(this, (...args: unknown[]) => {
    if (fault.is === 'half-compaction' && doing === 'compaction') dieOnDelete(this);
    const result = work(...args);
    if (fault.is === 'in-commit' && isTheOne()) die();
    if (fault.is === 'in-compaction' && doing === 'compaction') die();
    if (fault.is === 'failing-commits' && doing === 'commit' && commits % fault.at === 0) fail(commits);
    return result;
  });
} as typeof transaction;

function dieOnDelete(db: Database.Database): void {
  db.function('die', die);
  db.exec('CREATE TEMP TRIGGER die AFTER DELETE ON main.updates BEGIN SELECT die(); END');
}

/** By turns a fault of the disk, and one that nobody can explain. */
function fail(count: number): never {
  if (count % (2 * fault.at) === 0) throw new Database.SqliteError('made to fail', 'SQLITE_IOERR_WRITE');
  throw new Error('made to fail');
}

if (fault.relayFirst) {
  // The order turned round: what is about to be committed is relayed and acknowledged before it is.
  const { pendingRow } = SessionRoom.prototype;
  SessionRoom.prototype.pendingRow = function () {
    const row = pendingRow.call(this);
    if (row) this.committed(row);
    return row;
  };
}

// Rows are joined in idle time: of a test, not of a shop.
Object.assign(BOUND, { heartbeatMs: 1_000, rowsBeforeCompaction: 10 });

await import('../../../server/main.ts');
