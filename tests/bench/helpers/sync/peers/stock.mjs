/** What `@y/websocket-server` starts by its own command, on a port that is free. Nothing is stored. */
import { createServer } from 'node:http';
import { setupWSConnection } from '@y/websocket-server/utils';
import { WebSocketServer } from 'ws';

const sockets = new WebSocketServer({ noServer: true });
const server = createServer((_request, response) => response.end('okay'));

sockets.on('connection', setupWSConnection);
server.on('upgrade', (request, socket, head) =>
  sockets.handleUpgrade(request, socket, head, (ws) => sockets.emit('connection', ws, request)),
);
process.on('SIGTERM', () => process.exit(0));
server.listen(0, '127.0.0.1', () => console.log(`ready http://127.0.0.1:${server.address().port}`));
