/** See `full-disk.mjs`, which starts this in a mount namespace of its own. */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { randomBytes, randomInt } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { operatorCode, startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import type { Room } from '../../demo/room.ts';
import { serverCertificate } from '../../server/certificates.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { until } from '../helpers/until.ts';

const DAY_MS = 86_400_000;
const PATIENCE_MS = 60_000;
const LOCAL = ['127.0.0.1', 'localhost'];
const PLAIN = ['--plain', '--host', '127.0.0.1'];
const FULL = 'The disk is full: no entries are taken';

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const says = (server: ServerProcess, text: string): Promise<unknown> =>
  until(() => server.output().includes(text), `the console to say “${text}”`, PATIENCE_MS);

/** The disk itself: a file takes all that is free, to the last byte. */
class Disk {
  readonly at = mkdtempSync(join(tmpdir(), 'fibula-full-disk-'));
  readonly #filler = join(this.at, 'filler');

  constructor() {
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=6m', 'tmpfs', this.at], {
      encoding: 'utf8',
    });
    if (mounted.status !== 0) throw new Error(`the disk could not be mounted: ${mounted.stderr}`);
  }

  fill(): void {
    const file = openSync(this.#filler, 'a');
    try {
      for (const size of [65_536, 4_096, 1]) for (;;) if (writeSync(file, Buffer.alloc(size)) < size) break;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
    } finally {
      closeSync(file);
    }
  }

  free(): void {
    rmSync(this.#filler);
  }

  end(): void {
    spawnSync('umount', [this.at]);
    rmSync(this.at, { recursive: true, force: true });
  }
}

/** Entries until the console says that the disk is full. @returns all of them, each settling once it is saved. */
async function writeUntilFull(room: Room, server: ServerProcess): Promise<Promise<unknown>[]> {
  const saved: Promise<unknown>[] = [];
  const before = server.output().length;
  for (let i = 0; i < 500 && !server.output().slice(before).includes(FULL); i++) {
    saved.push(room.add('desk', 'home.checked', { note: `${i} ${'.'.repeat(1_900)}` }));
    await new Promise((resolve) => setImmediate(resolve));
  }
  await says(server, FULL);
  return saved;
}

async function whileServing(disk: Disk, data: string, session: string): Promise<string> {
  const server = await startServer(data, [...PLAIN, '--port', '0']);
  const desk = await Station.pair(server.url, operatorCode(data, ['desk']), 'Counter');
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  disk.fill();
  const saved = await writeUntilFull(room, server);
  say(`While serving. ${saved.length} entries; on the console: ${FULL} …`);
  disk.free();
  await Promise.all(saved);
  await says(server, 'The disk takes entries again.');
  say(`With space again: all ${saved.length} entries are saved, and the console says so.`);
  const waits = await (disk.fill(), writeUntilFull(room, server));
  await server.stop();
  say(`Stopped on the full disk: exit code ${server.process.exitCode}, entries wait at their station.`);

  const again = await startServer(data, [...PLAIN, '--port', new URL(server.url).port]);
  await says(again, FULL);
  say('Started on the full disk: it serves, and says that the disk is full.');
  disk.free();
  await Promise.all(waits);
  const [count, ids] = [1 + saved.length + waits.length, factsOnDisk(data, session).map(({ id }) => id)];
  if (ids.length !== count || new Set(ids).size !== count)
    throw new Error(`${ids.length} entries are on the disk, and ${count} were saved`);
  say(`With space again: all ${count} entries are on the disk, each once.`);
  disk.fill();
  again.process.kill('SIGKILL');
  await until(() => again.process.signalCode !== null, 'the process to end');
  const last = await startServer(data, [...PLAIN, '--port', '0']);
  say('Killed and started on the full disk: it serves.');
  await last.stop();
  room.close();
  return last.output();
}

/** A certificate that is due to be made anew, and no space for it. */
async function certificateDue(disk: Disk, data: string): Promise<void> {
  const outside = {
    now: () => Date.now() - 380 * DAY_MS,
    randomBytes: (n: number) => randomBytes(n),
    randomInt,
  };
  disk.free();
  await serverCertificate(join(data, 'tls'), LOCAL, outside);
  disk.fill();
  const server = await startServer(data, ['--host', '127.0.0.1', '--port', '0']);
  await says(server, FULL);
  await says(server, 'it is used from memory');
  say('Started on the full disk with a certificate that is due: it serves, with a new one in memory.');
  await server.stop();
}

const disk = new Disk();
try {
  const data = join(disk.at, 'data');
  await whileServing(disk, data, randomBytes(16).toString('hex'));
  await certificateDue(disk, data);
  say('All as it should be.');
} finally {
  disk.end();
}
