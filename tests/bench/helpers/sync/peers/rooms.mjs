/** Sockets of the same address are one room, on a port that is free: `hear(room, from, data, address)` gets each frame. */
import { createServer } from 'node:http';
import { WebSocketServer } from 'ws';

/** Passes a frame on to all others of its room. */
export function pass(room, from, data) {
  for (const other of room) if (other !== from) other.send(data);
}

export function serveRooms(hear) {
  const rooms = new Map();
  const sockets = new WebSocketServer({ noServer: true });
  const server = createServer((_request, response) => response.end('relay'));
  server.on('upgrade', (request, socket, head) =>
    sockets.handleUpgrade(request, socket, head, (ws) => {
      const room = rooms.get(request.url) ?? new Set();
      rooms.set(request.url, room.add(ws));
      ws.on('message', (data) => hear(room, ws, data, request.url));
      ws.on('close', () => {
        room.delete(ws);
        if (room.size === 0) rooms.delete(request.url);
      });
    }),
  );
  process.on('SIGTERM', () => process.exit(0));
  server.listen(0, '127.0.0.1', () => console.log(`ready http://127.0.0.1:${server.address().port}`));
}
