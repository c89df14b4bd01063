/** The real server, which on SIGUSR2 collects its garbage and writes how many bytes of heap are left. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

process.on('SIGUSR2', () => {
  // What the first collection lets go of, finalizers for one, the second one collects.
  collect();
  setImmediate(() => {
    collect();
    const { heapUsed, external } = process.memoryUsage();
    process.stdout.write(`heap ${heapUsed} external ${external}\n`);
  });
});

await import('../../server/main.ts');
