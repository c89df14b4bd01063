/** How long the disk itself takes to make a small write survive a loss of power. */
import { closeSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';

/** Milliseconds of each `fsync` behind four thousand bytes at the end of a file in `directory`. */
export function fsyncMs(directory: string, times = 200): number[] {
  const path = join(directory, 'fsync');
  const handle = openSync(path, 'w');
  const bytes = Buffer.alloc(4096, 1);
  try {
    return Array.from({ length: times }, () => {
      writeSync(handle, bytes);
      const from = performance.now();
      fsyncSync(handle);
      return performance.now() - from;
    });
  } finally {
    closeSync(handle);
    rmSync(path);
  }
}
