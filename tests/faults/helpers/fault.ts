/** What `dying-server.ts` does wrong. */
export interface Fault {
  readonly is:
    | 'before-commit' // applied in memory, nothing of it written
    | 'in-commit' // all rows written, not committed
    | 'after-commit' // on disk, nobody told
    | 'half-compaction' // a row deleted, the joined one not written
    | 'in-compaction' // the joined row written, not committed
    | 'failing-commits';
  /** The commit that is struck, from 1; each so-manieth for `failing-commits`. Of no matter to a compaction. */
  readonly at: number;
  /** Relays and acknowledges before the commit: the fault that the checks must find. */
  readonly relayFirst?: boolean;
}
