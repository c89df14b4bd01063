/**
 * What keeping costs by itself: the relay beside it, which has each frame on the disk before anybody hears of it, by SQLite
 * and `fsync` as ours does. What comes in one tick is one commit. It knows nothing and holds nothing in memory.
 */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { pass, serveRooms } from './rooms.mjs';

const db = new Database(join(process.argv[2], 'frames.sqlite'));
db.pragma('journal_mode = WAL');
db.pragma('synchronous = FULL');
db.exec('CREATE TABLE frames (n INTEGER PRIMARY KEY, room TEXT NOT NULL, bytes BLOB NOT NULL) STRICT');
const keep = db.prepare('INSERT INTO frames (room, bytes) VALUES (?, ?)');
const keepAll = db.transaction((frames) => {
  for (const { path, data } of frames) keep.run(path, data);
});

let pending = [];
function flush() {
  const frames = pending;
  pending = [];
  keepAll(frames);
  for (const { room, from, data } of frames) pass(room, from, data);
}

serveRooms((room, from, data, path) => {
  if (pending.length === 0) setImmediate(flush);
  pending.push({ room, from, data, path });
});
