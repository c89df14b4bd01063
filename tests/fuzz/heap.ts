/** How the server's heap grows with the frames it has read. */
import type { ServerProcess } from '../../demo/serve.ts';
import { until } from '../helpers/until.ts';

export interface Sample {
  readonly frames: number;
  /** Bytes after collection. */
  readonly heap: number;
}

/** Share of the run at whose end the caches are warm and the machine code is made. */
const WARM = 0.25;

/** Asks a server started from `tests/fuzz/server.ts`, one question at a time. */
export async function heapOf(server: ServerProcess): Promise<number> {
  const count = () => [...server.output().matchAll(/^heap (\d+) external \d+$/gm)];
  const before = count().length;
  server.process.kill('SIGUSR2');
  await until(() => count().length > before, 'the size of the heap', 60_000);
  return Number(count().at(-1)![1]);
}

/**
 * Bytes per 100,000 frames of the straight line that fits the samples after warm-up best. Throws with fewer than
 * three of them: a line through two says nothing.
 */
export function slopeOf(samples: readonly Sample[]): number {
  const from = WARM * Math.max(...samples.map(({ frames }) => frames));
  const warm = samples.filter(({ frames }) => frames >= from);
  if (warm.length < 3) throw new Error(`${warm.length} samples after warm-up: no line can be fitted`);
  const mean = (of: (sample: Sample) => number) =>
    warm.reduce((sum, sample) => sum + of(sample), 0) / warm.length;
  const x = mean(({ frames }) => frames);
  const y = mean(({ heap }) => heap);
  const across = mean(({ frames, heap }) => (frames - x) * (heap - y));
  const along = mean(({ frames }) => (frames - x) ** 2);
  return (across / along) * 100_000;
}
