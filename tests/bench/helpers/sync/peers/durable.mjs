/**
 * What keeping costs by itself: the relay beside it, which has each frame on the disk before anybody hears of it, by SQLite
 * and `fsync` as ours does. What comes in one tick is one commit. It knows nothing and holds nothing in memory.
 */
import { createServer } from 'node:http';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { WebSocketServer } from 'ws';

const db = new Database(join(process.argv[2], 'frames.sqlite'));
db.pragma('journal_mode = WAL');
db.pragma('synchronous = FULL');
db.exec('CREATE TABLE frames (n INTEGER PRIMARY KEY, room TEXT NOT NULL, bytes BLOB NOT NULL) STRICT');
const keep = db.prepare('INSERT INTO frames (room, bytes) VALUES (?, ?)');
const keepAll = db.transaction((frames) => {
  for (const { path, data } of frames) keep.run(path, data);
});

const rooms = new Map();
let pending = [];
function flush() {
  const frames = pending;
  pending = [];
  keepAll(frames);
  for (const { path, data, from } of frames)
    for (const other of rooms.get(path) ?? []) if (other !== from) other.send(data);
}

const sockets = new WebSocketServer({ noServer: true });
const server = createServer((_request, response) => response.end('durable'));

server.on('upgrade', (request, socket, head) =>
  sockets.handleUpgrade(request, socket, head, (ws) => {
    const path = request.url;
    const room = rooms.get(path) ?? new Set();
    rooms.set(path, room.add(ws));
    ws.on('message', (data) => {
      if (pending.length === 0) setImmediate(flush);
      pending.push({ path, data, from: ws });
    });
    ws.on('close', () => {
      room.delete(ws);
      if (room.size === 0) rooms.delete(path);
    });
  }),
);
process.on('SIGTERM', () => process.exit(0));
server.listen(0, '127.0.0.1', () => console.log(`ready http://127.0.0.1:${server.address().port}`));
