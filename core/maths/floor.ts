/**
 * One run of the shop floor: jobs go from station to station, wait where all hands are busy, and are taken up by
 * priority, then in the order in which they came to the station. Nobody is interrupted.
 */

export interface Task {
  /** Index of the station. */
  readonly station: number;
  /** How long a hand needs for it, ≥ 0. */
  readonly minutes: number;
}

export interface FloorJob {
  /** In order; each begins when the one before is done. */
  readonly tasks: readonly Task[];
  /** When it comes to the floor, ≥ 0. */
  readonly fromMin: number;
  /** Larger goes first. */
  readonly priority: number;
  /** Its first task is in hand already: it takes a hand before anybody who waits. */
  readonly inHand: boolean;
}

interface Busy {
  readonly job: number;
  readonly untilMin: number;
}

/** Who waits at one station. */
class Queue {
  readonly #waiting: { readonly job: number; readonly priority: number }[] = [];

  join(job: number, priority: number): void {
    this.#waiting.push({ job, priority });
  }

  /** The job to take up next, out of the queue; null when nobody waits. */
  take(): number | null {
    let best = -1;
    this.#waiting.forEach((one, i) => {
      const first = this.#waiting[best];
      if (!first || one.priority > first.priority) best = i;
    });
    // Those of one priority stand in the order in which they came, since taking one out keeps it.
    return best < 0 ? null : this.#waiting.splice(best, 1)[0]!.job;
  }
}

/**
 * When each job is done, in minutes from now, in the order of `jobs`. What happens at one moment all happens before
 * any hand takes up its next job; of those that come at one moment the earlier in the list comes first.
 *
 * @param hands of each station, whole numbers ≥ 1
 */
export function completions(hands: readonly number[], jobs: readonly FloorJob[]): number[] {
  const free = [...hands];
  const queues = hands.map(() => new Queue());
  const step = jobs.map(() => 0);
  const doneAt = jobs.map((job) => job.fromMin);
  const coming = jobs.map((_, i) => i).toSorted((a, b) => jobs[a]!.fromMin - jobs[b]!.fromMin);
  let next = 0;
  let busy: Busy[] = [];

  const arrive = (index: number, now: number): void => {
    const { tasks, priority, inHand } = jobs[index]!;
    const task = tasks[step[index]!];
    if (!task) doneAt[index] = now;
    else queues[task.station]!.join(index, inHand && step[index] === 0 ? Infinity : priority);
  };

  for (;;) {
    const soonest = busy.reduce((least, one) => Math.min(least, one.untilMin), Infinity);
    const now = Math.min(soonest, next < coming.length ? jobs[coming[next]!]!.fromMin : Infinity);
    if (now === Infinity) return doneAt;
    const arriving: number[] = [];
    for (const { job } of busy.filter((one) => one.untilMin <= now)) {
      free[jobs[job]!.tasks[step[job]!]!.station]!++;
      step[job]!++;
      arriving.push(job);
    }
    busy = busy.filter((one) => one.untilMin > now);
    while (next < coming.length && jobs[coming[next]!]!.fromMin <= now) arriving.push(coming[next++]!);
    for (const job of arriving.toSorted((a, b) => a - b)) arrive(job, now);
    queues.forEach((queue, station) => {
      for (let job; free[station]! > 0 && (job = queue.take()) !== null; free[station]!--)
        busy.push({ job, untilMin: now + jobs[job]!.tasks[step[job]!]!.minutes });
    });
  }
}
