/** `npm run restore -- FILE`: a backup in the place of the database, while no server runs on it. */
import { randomBytes, randomInt } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { CannotDo, plural, program, sizeWords } from './ask.ts';
import { restore } from './restore.ts';

const USAGE = 'npm run restore -- FILE [--replace] [--data DIR]';

await program(async () => {
  const { values, positionals } = parseArgs({
    options: {
      data: { type: 'string', default: './data' },
      replace: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new CannotDo(USAGE);
  const [path, data] = [resolve(file), resolve(values.data)];
  mkdirSync(data, { recursive: true, mode: 0o700 });
  const outside = { now: () => Date.now(), randomBytes: (count: number) => randomBytes(count), randomInt };
  const { examined, aside, wasReadable } = restore(path, data, values.replace, outside);
  const { bytes, sessions, facts, lastMs } = examined;
  const until = lastMs === null ? '' : `, until ${new Date(lastMs).toLocaleString()}`;
  process.stdout.write(
    `Restored ${path}: ${sizeWords(bytes)}, ${plural(sessions, 'session')}, ${plural(facts, 'fact')}${until}.\n`,
  );
  if (aside !== null)
    process.stdout.write(
      `The database that was there is now ${aside}${wasReadable ? '' : '; it could not be read whole'}.\n`,
    );
  process.stdout.write(
    'Start the server, and open every station once: what they still hold of later entries they offer by themselves.\nStations paired after the backup must be paired again.\n',
  );
  await Promise.resolve();
});
