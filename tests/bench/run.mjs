/** `npm run bench -- NAME [options]`: one program of this folder, which prints what it measured. Nothing is asserted. */
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readyPackages } from '../helpers/ready-packages.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
/** A bench is a file of its own name; what several share lies below `helpers`. */
const names = readdirSync(HERE)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.slice(0, -3));

const [name, ...options] = process.argv.slice(2);
if (name === undefined || !names.includes(name)) {
  process.stderr.write(`usage: npm run bench -- ${names.join('|')} [--json]\n`);
  process.exitCode = 2;
} else {
  await readyPackages();
  const program = ['--import', 'tsx', join(HERE, `${name}.ts`), ...options];
  process.exitCode = spawnSync(process.execPath, program, { stdio: 'inherit' }).status ?? 1;
}
