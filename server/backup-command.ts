/** `npm run backup -- FILE`: a verified copy of all sessions and people, while the server serves or while none does. */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { CannotDo, command, plural, program, sizeWords } from './ask.ts';
import type { Examined } from './examine.ts';

const USAGE = 'npm run backup -- FILE [--data DIR]';

await program(async () => {
  const { values, positionals } = parseArgs({
    options: { data: { type: 'string', default: './data' } },
    allowPositionals: true,
  });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new CannotDo(USAGE);
  const path = resolve(file);
  const { examined } = await command<{ examined: Examined }>(values.data, {
    do: 'backup',
    file: path,
  });
  const { bytes, sessions, facts } = examined;
  process.stdout.write(
    `${path}: ${sizeWords(bytes)}, ${plural(sessions, 'session')}, ${plural(facts, 'fact')}, verified.\n`,
  );
});
