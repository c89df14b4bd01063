/** A real server process with a data folder of its own, for one test file. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { StationRole } from '../../core/index.ts';
import { operatorCode, startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';

export interface TestServer {
  readonly url: string;
  readonly data: string;
  readonly server: ServerProcess;
  /** The pairing codes that the console shows while no desk is paired. */
  shownCodes(): { readonly code: string; readonly roles: readonly string[] }[];
  /** Of those, the one that grants just this role. Throws when there is none. */
  shownCode(role: StationRole): string;
  /** A pairing code by the operator's command. */
  code(roles: readonly StationRole[]): string;
  /** A station that is a program, paired with these roles. */
  station(roles: readonly StationRole[], name?: string): Promise<Station>;
  /** End the process and remove its data. */
  close(): Promise<void>;
}

/** On a free port of 127.0.0.1, over plain http; `data` may be one that an earlier server has left. */
export async function serve(options: { data?: string; args?: readonly string[] } = {}): Promise<TestServer> {
  const data = options.data ?? mkdtempSync(join(tmpdir(), 'fibula-data-'));
  const args = ['--plain', '--host', '127.0.0.1', '--port', '0', ...(options.args ?? [])];
  const server = await startServer(data, args);
  const code = (roles: readonly StationRole[]) => operatorCode(data, roles);
  const shownCodes = () =>
    [...server.output().matchAll(/^ *(\d{6}) +([a-z]+(?:, [a-z]+)*) +\(/gm)].map(([, shown, roles]) => ({
      code: shown!,
      roles: roles!.split(', '),
    }));
  return {
    url: server.url,
    data,
    server,
    shownCodes,
    shownCode: (role) => {
      const shown = shownCodes().find(({ roles }) => roles.join() === role);
      if (!shown) throw new Error(`the console shows no code for ${role}`);
      return shown.code;
    },
    code,
    station: (roles, name = roles.join(' and ')) => Station.pair(server.url, code(roles), name),
    close: async () => {
      await server.stop();
      rmSync(data, { recursive: true, force: true });
    },
  };
}
