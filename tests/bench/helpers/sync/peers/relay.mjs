/** The least that a server can do: whoever holds a socket of the same address hears every frame of the others. */
import { createServer } from 'node:http';
import { WebSocketServer } from 'ws';

const rooms = new Map();
const sockets = new WebSocketServer({ noServer: true });
const server = createServer((_request, response) => response.end('relay'));

server.on('upgrade', (request, socket, head) =>
  sockets.handleUpgrade(request, socket, head, (ws) => {
    const room = rooms.get(request.url) ?? new Set();
    rooms.set(request.url, room.add(ws));
    ws.on('message', (data) => {
      for (const other of room) if (other !== ws) other.send(data);
    });
    ws.on('close', () => {
      room.delete(ws);
      if (room.size === 0) rooms.delete(request.url);
    });
  }),
);
process.on('SIGTERM', () => process.exit(0));
server.listen(0, '127.0.0.1', () => console.log(`ready http://127.0.0.1:${server.address().port}`));
