/** Where the running server of a data directory listens to its operator. */
import { createHash } from 'node:crypto';
import { join, relative, resolve } from 'node:path';

/** A Unix socket's path is at most 107 bytes on Linux, 103 on macOS. */
const LONGEST = 103;

/** @param {string} directory the data directory @returns {string} what to listen on or to connect to */
export function operatorPath(directory) {
  if (process.platform === 'win32')
    return `\\\\.\\pipe\\fibula-${createHash('sha256').update(resolve(directory)).digest('hex').slice(0, 16)}`;
  const path = resolve(directory, 'operator.sock');
  const shorter = join(relative(process.cwd(), directory) || '.', 'operator.sock');
  const best = shorter.length < path.length ? shorter : path;
  if (Buffer.byteLength(best) > LONGEST)
    throw new Error(
      `The path of ${directory} is too long for the operator's socket; choose a shorter --data.`,
    );
  return best;
}
