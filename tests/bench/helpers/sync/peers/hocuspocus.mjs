/** Hocuspocus as it comes, with its own SQLite: it writes a document some two seconds after its last change. */
import { join } from 'node:path';
import { SQLite } from '@hocuspocus/extension-sqlite';
import { Server } from '@hocuspocus/server';

const server = new Server({
  address: '127.0.0.1',
  port: 0,
  quiet: true,
  stopOnSignals: false,
  extensions: [new SQLite({ database: join(process.argv[2], 'documents.sqlite') })],
});
process.on('SIGTERM', () => process.exit(0));
await server.listen();
console.log(`ready http://127.0.0.1:${server.httpServer.address().port}`);
