/**
 * Loaded before the server's program and every process that it starts, for tests: a data directory on a file system
 * that grants every lock at once, as some network shares do. Only the lock on the directory is so.
 */
import Database from 'better-sqlite3';

const { exec } = Database.prototype;
Database.prototype.exec = function (sql) {
  const isLock = this.name.endsWith('server.lock') && sql === 'BEGIN EXCLUSIVE';
  return exec.call(this, isLock ? 'BEGIN' : sql);
};
