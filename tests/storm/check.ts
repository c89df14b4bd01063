/** The promises of a storm, held against a disk. Each break is one line; none is what everybody wants. */
import { plan, sameJson } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import type { Disk, SessionOnDisk } from './disk.ts';
import type { Tablet } from './tablet.ts';
import type { Witness } from './witness.ts';

export interface Breaks {
  /** Acknowledged, and not on disk as it was entered. */
  readonly lost: string[];
  /** More than once in a session's list. */
  readonly twice: string[];
  /** Shown to a station, and not on disk. */
  readonly shownOnly: string[];
  /** Replicas, disk and plans that differ; a damaged file; stations that were treated wrongly. */
  readonly other: string[];
}

export const noBreaks = (): Breaks => ({ lost: [], twice: [], shownOnly: [], other: [] });
export const allBreaks = ({ lost, twice, shownOnly, other }: Breaks): string[] => [
  ...lost.map((line) => `lost: ${line}`),
  ...twice.map((line) => `twice: ${line}`),
  ...shownOnly.map((line) => `shown, not on disk: ${line}`),
  ...other,
];

/** What stations were told is saved: session → fact id → the fact as it was entered. Grows only. */
export class Ledger {
  readonly #saved = new Map<string, Map<string, Fact>>();

  get saved(): ReadonlyMap<string, ReadonlyMap<string, Fact>> {
    return this.#saved;
  }

  get size(): number {
    return [...this.#saved.values()].reduce((sum, facts) => sum + facts.size, 0);
  }

  /** Writes down what this station shows as saved now. */
  note(tablet: Tablet): void {
    for (const session of tablet.sessions.keys()) {
      const facts = this.#saved.get(session) ?? new Map<string, Fact>();
      for (const id of tablet.saved(session)) facts.set(id, tablet.entered.get(session)!.get(id)!);
      this.#saved.set(session, facts);
    }
  }
}

/** Everything acknowledged or shown is on this disk, each fact once. Looks at the sessions that `disk` was read for. */
export function checkDisk(
  disk: Disk,
  wanted: Iterable<string>,
  witness: Witness,
  ledger: Ledger,
  to: Breaks,
): void {
  if (disk.integrity !== 'ok') to.other.push(`the database file is damaged: ${disk.integrity}`);
  for (const session of wanted) {
    const there = disk.sessions.get(session);
    const byId = new Map(there?.facts.map((fact) => [fact.id, fact]));
    for (const [id, fact] of ledger.saved.get(session) ?? [])
      if (!sameJson(byId.get(id), fact)) to.lost.push(`${session} ${fact.kind} ${id}`);
    const heard = witness.sessions.get(session);
    for (const [client, clock] of heard?.durable ?? [])
      if ((there?.clocks.get(client) ?? 0) < clock)
        to.lost.push(
          `${session} client ${client}: ${clock} acknowledged, ${there?.clocks.get(client) ?? 0} there`,
        );
    for (const id of heard?.shown ?? []) if (!byId.has(id)) to.shownOnly.push(`${session} ${id}`);
    if (there) checkOnce(session, there, to);
  }
}

function checkOnce(session: string, { facts, timed }: SessionOnDisk, to: Breaks): void {
  const seen = new Set<string>();
  for (const { id } of facts) {
    if (seen.has(id)) to.twice.push(`${session} ${id}`);
    seen.add(id);
  }
  if (timed.length !== seen.size || timed.some((id) => !seen.has(id)))
    to.other.push(`${session}: ${seen.size} facts in the list, ${timed.length} with a commit time`);
}

const bytesOf = (facts: readonly Fact[]): string => JSON.stringify(facts);

/** Nothing waits at these stations, and the list that each shows is the disk's, byte for byte. */
export function agree(tablets: readonly Tablet[], session: string, onDisk: () => readonly Fact[]): boolean {
  const shown = tablets.flatMap((tablet) => tablet.sessions.get(session) ?? []);
  // Cheap questions first: this is asked again and again while it is not so.
  if (!shown.every(({ waiting, state }) => waiting === 0 && state === 'connected')) return false;
  const lists = shown.map(({ facts }) => facts);
  if (!lists.every(({ length }) => length === lists[0]?.length)) return false;
  const wanted = bytesOf(onDisk());
  return lists.every((facts) => bytesOf(facts) === wanted);
}

/** All these stations show one plan of a session, and it is the plan of what is on disk. */
export function checkPlans(
  tablets: readonly Tablet[],
  session: string,
  disk: SessionOnDisk,
  to: Breaks,
): void {
  const wanted = JSON.stringify(plan(disk.facts));
  for (const tablet of tablets) {
    const shown = tablet.sessions.get(session);
    if (shown && JSON.stringify(shown.plan) !== wanted)
      to.other.push(`${tablet.name} shows another plan of ${session} than the disk gives`);
  }
}

/** Whatever was entered anywhere, acknowledged or not, has come to the disk in the end, as it was entered. */
export function checkAllArrived(tablets: readonly Tablet[], disk: Disk, to: Breaks): void {
  for (const tablet of tablets)
    for (const [session, facts] of tablet.entered) {
      const there = new Map(disk.sessions.get(session)?.facts.map((fact) => [fact.id, fact]));
      for (const [id, fact] of facts)
        if (!sameJson(there.get(id), fact))
          to.other.push(`${tablet.name}: ${fact.kind} ${id} of ${session} never came to the disk`);
    }
}
