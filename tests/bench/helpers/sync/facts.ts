/** Entries as a session's three stations write them; the same for every server. */
import type { Fact } from '../../../../core/index.ts';
import { longSession } from '../session.ts';

export const ROLES = ['desk', 'measuring', 'bench'] as const;
export type LoadRole = (typeof ROLES)[number];

const whole = longSession(200, true);

/** A session of two hundred entries, said by `station`. */
export const sessionFacts = (station: string): Fact[] =>
  whole.map((fact) => ({ ...fact, by: { ...fact.by, station } }));

/** The entry that opens a session. */
export const opening = (station: string): Fact => sessionFacts(station)[0]!;

/** What each role says most. */
const SAMPLE: Readonly<Record<LoadRole, Fact>> = {
  desk: whole.find(({ kind }) => kind === 'health.asked')!,
  measuring: whole.findLast(({ kind }) => kind === 'cuff.read')!,
  bench: whole.findLast(({ kind }) => kind === 'cuff.set')!,
};

/** An entry of `role` under an id of its own. */
export const entryOf = (role: LoadRole, id: string, station: string): Fact => ({
  ...SAMPLE[role],
  id,
  by: { role, station },
});
