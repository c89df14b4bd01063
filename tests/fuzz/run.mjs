/** `npm run fuzz -- …`: ready the packages, then run the fuzz. */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readyPackages } from '../helpers/ready-packages.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));

await readyPackages();
const program = ['--import', 'tsx', join(HERE, 'main.ts'), ...process.argv.slice(2)];
process.exitCode = spawnSync(process.execPath, program, { stdio: 'inherit' }).status ?? 1;
