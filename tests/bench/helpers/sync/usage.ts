/** What a process of this machine has used, as Linux counts it. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const TICKS_PER_S = Number(execFileSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }));

/** Seconds of processor time, its own and the system's for it; in steps of a hundredth. */
export function cpuS(pid: number): number {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
  // The name in parentheses may hold blanks; utime and stime are fields 14 and 15.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S;
}

/** Resident memory, millions of bytes. */
export function rssMb(pid: number): number {
  const kib = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
  return (Number(kib) * 1024) / 1e6;
}
