/** The network cable of one station, to be pulled out and put back: a port of its own that leads to the server. */
import { connect, createServer } from 'node:net';
import type { AddressInfo, Socket } from 'node:net';

export interface Cable {
  /** The server's address by way of this cable. */
  readonly url: string;
  /** Ends what is connected; whoever comes now is turned away. */
  pull(): void;
  plugIn(): void;
  close(): Promise<void>;
}

export async function cableTo(url: string): Promise<Cable> {
  const { hostname, port } = new URL(url);
  const ends = new Set<Socket>();
  let plugged = true;
  const server = createServer((near) => {
    if (!plugged) return void near.destroy();
    const far = connect({ host: hostname, port: Number(port) });
    for (const [end, other] of [
      [near, far],
      [far, near],
    ] as const) {
      ends.add(end);
      end.on('error', () => undefined); // it closes as well
      end.on('close', () => {
        ends.delete(end);
        other.destroy();
      });
      end.pipe(other);
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const endAll = () => {
    for (const end of ends) end.destroy();
  };
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    pull: () => {
      plugged = false;
      endAll();
    },
    plugIn: () => {
      plugged = true;
    },
    close: () => {
      plugged = false;
      endAll();
      return new Promise((resolve) => server.close(() => resolve()));
    },
  };
}
