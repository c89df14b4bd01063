/** `npm run -s export -- REF`: all that is kept of one client, as JSON on standard output. */
import { parseArgs } from 'node:util';
import { CannotDo, command, program } from './ask.ts';
import type { ClientFile } from './clients.ts';

const USAGE = 'npm run -s export -- REF [--data DIR]';

await program(async () => {
  const { values, positionals } = parseArgs({
    options: { data: { type: 'string', default: './data' } },
    allowPositionals: true,
  });
  const [ref, ...more] = positionals;
  if (ref === undefined || more.length > 0) throw new CannotDo(USAGE);
  const { file } = await command<{ file: ClientFile | null }>(values.data, { do: 'export', ref });
  if (!file) throw new CannotDo(`Nobody has the reference ${ref}.`);
  process.stdout.write(`${JSON.stringify(file, null, 2)}\n`);
});
