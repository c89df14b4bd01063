/**
 * Run in a process of its own: tries to take a lock that another process holds. Exit code 3 when it is kept out, 0
 * when it is not, 1 when it could not try.
 */
import Database from 'better-sqlite3';

try {
  const db = new Database(/** @type {string} */ (process.argv[2]), { timeout: 0, fileMustExist: true });
  db.exec('BEGIN EXCLUSIVE');
  process.exitCode = 0;
} catch (error) {
  const code = /** @type {{ code?: string }} */ (error).code ?? '';
  process.exitCode = code.startsWith('SQLITE_BUSY') ? 3 : 1;
}
