/** The ticket that a skier holds, or a tag on a boot, scanned at a list of jobs: it picks its job, wherever the focus is. */
import { afterPaint } from './after-paint.ts';
import { Scans } from './scans.ts';
import type { Station } from './station.svelte.ts';
import { bootsByCode, jobsByTicket } from './tags.ts';

interface ListListener {
  readonly station: Station;
  readonly onpick: (session: string) => void;
  /** A code of no open job, or of several: the list is narrowed to it, so that a person decides. */
  readonly onother: (code: string) => void;
}

/** @returns what ends it. */
export default function hearScans({ station, onpick, onother }: ListListener): () => void {
  const sessionsOf = (code: string): string[] => {
    const rows = station.jobs?.rows ?? [];
    const found = [...jobsByTicket(rows, code), ...bootsByCode(rows, code).map(({ row }) => row)];
    return [...new Set(found.map(({ session }) => session))];
  };
  const scans = new Scans({
    isKnown: (code) => sessionsOf(code).length > 0,
    onScan: (code) =>
      afterPaint(() => {
        const [first, ...more] = sessionsOf(code);
        if (first !== undefined && more.length === 0) onpick(first);
        else onother(code);
      }),
  });
  /** What is begun on an open sheet is not left by a scan. */
  const heard = (event: KeyboardEvent) => {
    if (!document.querySelector('dialog[open]')) scans.keydown(event);
  };
  addEventListener('keydown', heard, { capture: true });
  return () => removeEventListener('keydown', heard, { capture: true });
}
