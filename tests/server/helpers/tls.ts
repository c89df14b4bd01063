/** What a client sees of a server's certificate. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { connect } from 'node:tls';
import type { PeerCertificate, TLSSocket } from 'node:tls';
import type { Running } from './running.ts';

export const authorityOf = (running: Running): string =>
  readFileSync(join(running.data, 'tls', 'ca.crt'), 'utf8');

/** A new connection that trusts `ca`; rejects with what TLS says when that does not vouch for the server. */
export const dial = (url: string, ca: string): Promise<TLSSocket> =>
  new Promise((resolve, reject) => {
    const socket = connect(
      { port: Number(new URL(url).port), host: '127.0.0.1', servername: 'localhost', ca },
      () => resolve(socket),
    );
    socket.on('error', reject);
  });

/** The certificate shown to a new connection, whatever it is worth. */
export const shown = (url: string): Promise<PeerCertificate> =>
  new Promise((resolve, reject) => {
    const socket = connect(
      {
        port: Number(new URL(url).port),
        host: '127.0.0.1',
        servername: 'localhost',
        rejectUnauthorized: false,
      },
      () => {
        resolve(socket.getPeerCertificate());
        socket.destroy();
      },
    );
    socket.on('error', reject);
  });
