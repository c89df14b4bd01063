/** Which boot lies at the bench: known by its scanned tag, or by what a person has read on it. */
import type { Fact, JobRow, Side } from '../../core/index.ts';
import { logOf } from '../kit/entries.ts';
import { bootsByCode, jobsByTicket } from '../kit/tags.ts';
import type { FoundBoot } from '../kit/tags.ts';

export interface BootRef {
  readonly session: string;
  readonly side: Side;
}
const same = (a: BootRef | null, b: BootRef | null): boolean =>
  a?.session === b?.session && a?.side === b?.side;

/** What a scan has to be told about; a scan of the boot that was asked for needs no word. */
export type Scan =
  | { readonly is: 'unknown'; readonly code: string }
  | { readonly is: 'several'; readonly code: string; readonly boots: readonly FoundBoot[] }
  | { readonly is: 'other'; readonly code: string; readonly boot: FoundBoot; readonly wanted: BootRef };

/** How often the floor has read this side: a boot that was read again has been out of hand. */
const readings = (facts: readonly Fact[], side: Side): number =>
  (['cuff.read', 'stance.read'] as const).reduce(
    (sum, kind) =>
      sum +
      logOf(facts)
        .live(kind)
        .filter((fact) => fact.side === side).length,
    0,
  );

export class Hand {
  /** The boot whose work the page shows or asks for; null where there is none to do. */
  wanted = $state.raw<BootRef | null>(null);
  scan = $state.raw<Scan | null>(null);
  /** Tags put on boots here, until the board tells them. */
  #put = $state.raw<Readonly<Record<string, JobRow['tags']>>>({});
  #held = $state.raw<BootRef | null>(null);
  #readings: number | null = null;

  get held(): BootRef | null {
    return this.#held;
  }

  take(boot: BootRef): void {
    this.#readings = null;
    if (!same(this.#held, boot)) this.#held = boot;
    this.scan = null;
  }

  /** This boot got a tag, and is in hand. */
  tag(boot: BootRef, code: string): void {
    this.#put = { ...this.#put, [boot.session]: { ...this.#put[boot.session], [boot.side]: code } };
    this.take(boot);
  }

  withTags = (row: JobRow): JobRow => {
    const put = this.#put[row.session];
    return put ? { ...row, tags: { ...put, ...row.tags } } : row;
  };

  /** This boot is in hand, and has not been on the floor since. */
  holds(session: string, side: Side, facts: readonly Fact[]): boolean {
    if (!same(this.#held, { session, side })) return false;
    const now = readings(facts, side);
    this.#readings ??= now;
    return now <= this.#readings;
  }

  /** Resolves a code: `show` turns the page to a job, and to a side of it where that is known. */
  scanned(code: string, rows: readonly JobRow[], show: (session: string, side: Side | null) => void): void {
    const boots = bootsByCode(rows, code);
    const [boot] = boots;
    const [job, ...more] = boot ? [] : jobsByTicket(rows, code);
    if (job && more.length === 0) {
      this.scan = null;
      return show(job.session, null);
    }
    if (!boot) this.scan = { is: 'unknown', code };
    else if (boots.length > 1) this.scan = { is: 'several', code, boots };
    else {
      const ref = { session: boot.row.session, side: boot.side };
      if (this.wanted && !same(this.wanted, ref))
        this.scan = { is: 'other', code, boot, wanted: this.wanted };
      else this.changeTo(boot, show);
    }
  }

  changeTo({ row, side }: FoundBoot, show: (session: string, side: Side | null) => void): void {
    this.take({ session: row.session, side });
    show(row.session, side);
  }
}
