/** `npm run erase -- REF --yes`: a client's name, contact and free texts, gone for good. */
import { parseArgs } from 'node:util';
import { CannotDo, command, plural, program } from './ask.ts';
import type { ClientFile } from './clients.ts';
import type { Erased } from './keeper.ts';

const USAGE = 'npm run erase -- REF [--yes] [--also-backups] [--data DIR] [--backups DIR]';

await program(async () => {
  const { values, positionals } = parseArgs({
    options: {
      data: { type: 'string', default: './data' },
      backups: { type: 'string' },
      yes: { type: 'boolean', default: false },
      'also-backups': { type: 'boolean', default: false },
    },
    allowPositionals: true,
  });
  const [ref, ...more] = positionals;
  if (ref === undefined || more.length > 0) throw new CannotDo(USAGE);
  const nobody = new CannotDo(`Nobody has the reference ${ref}.`);
  if (!values.yes) {
    const { file } = await command<{ file: ClientFile | null }>(values.data, { do: 'export', ref });
    if (!file) throw nobody;
    const who = file.person ? `${file.person.name} (${ref})` : ref;
    throw new CannotDo(
      `Nothing is erased yet. This would erase the personal data of ${who}, with the free texts of ${plural(file.sessions.length, 'session')}, for good. Add --yes to do it.`,
    );
  }
  const asked = { do: 'erase', ref, backups: values['also-backups'] };
  const { erased } = await command<{ erased: Erased | null }>(values.data, asked, values.backups);
  if (!erased) throw nobody;
  process.stdout.write(`Erased: the person, and the free texts of ${plural(erased.sessions, 'session')}.\n`);
  if (!values['also-backups'])
    process.stdout.write(
      'Older backups still hold them until they are removed; --also-backups rewrites the daily ones.\n',
    );
  else process.stdout.write(`Rewritten: ${plural(erased.rewritten.length, 'daily backup')}.\n`);
  for (const line of erased.failed) process.stderr.write(`Not rewritten: ${line}\n`);
  if (erased.failed.length > 0) process.exitCode = 1;
});
