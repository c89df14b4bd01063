/** When jobs will be ready, as the server works it out (docs/queue.md), and which of them are late or will be. */
import type { JobRow } from '../../core/index.ts';
import { ask } from '../kit/api.ts';
import { byUrgency } from '../kit/jobs.ts';

export interface Ready {
  readonly medianMs: number;
  readonly promiseMs: number;
}

export type Lateness = 'late' | 'will-be' | null;

const LOOK_MS = 15_000;

export class Expected {
  #jobs = $state.raw<Readonly<Record<string, Ready>>>({});

  of(row: JobRow): Ready | null {
    return this.#jobs[row.session] ?? null;
  }

  /** Late: the promise has passed. Will be: in fewer than 80 % of cases it is ready by then. */
  lateness(row: JobRow, nowMs: number): Lateness {
    if (row.closed || row.promisedAt === null) return null;
    const promised = Date.parse(row.promisedAt);
    if (promised < nowMs) return 'late';
    const ready = this.of(row);
    return ready && row.stage !== 'handover' && ready.promiseMs > promised ? 'will-be' : null;
  }

  /** Late first, then what will be, then the rest; each as `byUrgency` has it. */
  sorted(rows: readonly JobRow[], nowMs: number): JobRow[] {
    const place = (row: JobRow) => ({ late: 0, 'will-be': 1, on: 2 })[this.lateness(row, nowMs) ?? 'on'];
    const places = new Map(rows.map((row) => [row, place(row)]));
    return rows.toSorted((a, b) => places.get(a)! - places.get(b)! || byUrgency(a, b));
  }

  /** Asks now and then, while `connected`; what was told last stands meanwhile. @returns what ends it. */
  watch(connected: () => boolean): () => void {
    const look = async () => {
      if (!connected()) return;
      const answer = await ask<{ readonly jobs: Readonly<Record<string, Ready>> }>('GET', '/api/queue');
      if (answer.ok && JSON.stringify(answer.value.jobs) !== JSON.stringify(this.#jobs))
        this.#jobs = answer.value.jobs;
    };
    void look();
    const timer = setInterval(() => void look(), LOOK_MS);
    return () => clearInterval(timer);
  }
}
