/** Starts one of our programs, built or in TypeScript, once all is ready for it, and ends as it ends. */
import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { NotReady, ready, ROOT } from './ready.mjs';

/** @param {string} program path from the top of the project @param {{ build?: boolean }} [what] as for `ready` */
export async function launch(program, what) {
  try {
    await ready(what);
  } catch (error) {
    if (!(error instanceof NotReady)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
    return;
  }
  // The loader by its path, so that this works from any directory.
  const loader = pathToFileURL(join(ROOT, 'node_modules', 'tsx', 'dist', 'loader.mjs')).href;
  const loaded = program.endsWith('.ts') ? ['--import', loader] : [];
  const child = spawn(process.execPath, [...loaded, join(ROOT, program), ...process.argv.slice(2)], {
    stdio: 'inherit',
  });
  // A terminal signals the child as well; whoever signals only us means both.
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP']))
    process.on(signal, () => {
      if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
    });
  child.once('exit', (code, signal) => {
    process.exitCode = code ?? 128 + (signal ? constants.signals[signal] : 1);
    process.exit();
  });
}
