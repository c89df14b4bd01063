/**
 * `npm run full-disk`: the real server on a real disk of six megabytes, which is filled and freed under it. The disk
 * is in memory and in a mount namespace of its own: no other program sees it, and it is gone when this ends.
 */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readyPackages } from '../helpers/ready-packages.mjs';

const PROGRAM = join(dirname(fileURLToPath(import.meta.url)), 'full-disk.ts');
const APART = ['--user', '--map-root-user', '--mount'];

if (spawnSync('unshare', [...APART, 'mount', '-t', 'tmpfs', 'tmpfs', '/mnt']).status !== 0) {
  process.stdout.write(
    'Skipped: this machine has no Linux namespaces in which a small disk could be mounted.\n',
  );
} else {
  await readyPackages();
  const program = [process.execPath, '--import', 'tsx', PROGRAM];
  process.exitCode = spawnSync('unshare', [...APART, ...program], { stdio: 'inherit' }).status ?? 1;
}
