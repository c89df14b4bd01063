/** The twelve stations of a shop in a storm, each on a line of its own, and the end of their server. */
import { randomFrom } from '../../demo/random.ts';
import { operatorCode } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import { cableTo } from '../helpers/cable.ts';
import type { Cable } from '../helpers/cable.ts';
import { until } from '../helpers/until.ts';
import type { Ledger } from './check.ts';
import { Drafts } from './drafts.ts';
import type { WritingRole } from './drafts.ts';
import { LIMIT_MS } from './settle.ts';
import { Tablet } from './tablet.ts';
import type { Witness } from './witness.ts';

export interface Line {
  readonly tablet: Tablet;
  readonly cable: Cable;
}

const CREW: readonly WritingRole[] = [
  ...Array<WritingRole>(3).fill('desk'),
  ...Array<WritingRole>(6).fill('measuring'),
  ...Array<WritingRole>(3).fill('bench'),
];

/** Pairs them all by the front door; what each does by chance follows from `seed`. */
export async function pairCrew(
  { url, data }: ServerProcess,
  seed: number,
  witness: Witness,
): Promise<Line[]> {
  const desk = await Station.pair(url, operatorCode(data, ['desk']), 'the first desk');
  const drafts = new Drafts(seed);
  const lines: Line[] = [];
  for (const [i, role] of CREW.entries()) {
    const cable = await cableTo(url);
    const tablet = await Tablet.pair({
      url: cable.url,
      code: await desk.code([role]),
      role,
      name: `${role} ${i + 1}`,
      random: randomFrom(seed + 1 + i),
      drafts,
      witness,
    });
    lines.push({ tablet, cable });
  }
  return lines;
}

/** SIGKILL; and the ledger then has whatever these stations were told is saved. */
export async function killUnder(
  { process }: ServerProcess,
  tablets: readonly Tablet[],
  ledger: Ledger,
): Promise<void> {
  process.kill('SIGKILL');
  await until(() => process.signalCode === 'SIGKILL', 'the server to be dead', LIMIT_MS);
  // What was under way when it died still comes to the stations; only then is it asked what they know.
  const held = tablets.flatMap(({ sockets }) => [...sockets]);
  const ended = () => held.every((socket) => socket.readyState === socket.CLOSED);
  await until(ended, 'sockets to end', LIMIT_MS);
  for (const tablet of tablets) ledger.note(tablet);
}
