/**
 * Nobody ever sees an entry that the disk does not hold: the real server dies or fails at the points where a wrong
 * order would show, while stations write down everything that comes to them.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import Database from 'better-sqlite3';
import { join } from 'node:path';
import { allBreaks } from '../storm/check.ts';
import { Crew } from './helpers/crew.ts';
import type { Fault } from './helpers/fault.ts';

const SEED = Number(process.env['FIBULA_SEED'] ?? 20260109);

const rowsOf = (data: string): number => {
  const db = new Database(join(data, 'fibula.db'), { readonly: true });
  try {
    return db
      .prepare('SELECT max(rows) FROM (SELECT count(*) AS rows FROM updates GROUP BY document)')
      .pluck()
      .get() as number;
  } finally {
    db.close();
  }
};

describe('one shop, killed at one point after another', () => {
  const crew = new Crew(SEED);
  afterAll(() => crew.close());

  const kills: readonly Fault[] = [
    { is: 'before-commit', at: 9 },
    { is: 'in-commit', at: 9 },
    { is: 'after-commit', at: 9 },
  ];
  it.each(kills)(
    'between applying and telling ($is): what was shown is there, the rest comes again',
    async (fault) => {
      await crew.serve(fault);
      await crew.work(() => crew.dead, 'the server to kill itself');
      expect(allBreaks(await crew.afterDeath())).toEqual([]);
      expect(crew.witness.sessions.size).toBe(2);
    },
  );

  it.each(['half-compaction', 'in-compaction'] as const)(
    'while it joins rows (%s): none is lost',
    async (is) => {
      await crew.serve({ is, at: 0 });
      const before = crew.saved;
      await crew.work(() => crew.saved >= before + 40 || crew.dead, '40 more facts');
      const rows = rowsOf(crew.data);
      expect(allBreaks(await crew.afterDeath())).toEqual([]);
      expect(rowsOf(crew.data)).toBeGreaterThanOrEqual(rows); // it was not carried out
    },
  );

  it('with commits that fail: each entry is saved in the end, and was shown to nobody before', async () => {
    await crew.serve({ is: 'failing-commits', at: 5 });
    const before = crew.saved;
    await crew.work(() => crew.saved >= before + 40, '40 more facts');
    crew.kill();
    expect(allBreaks(await crew.afterDeath())).toEqual([]);
  });

  it('and in the end all hold the same, each entry once', async () => {
    await crew.serve();
    expect(allBreaks(await crew.atRest('at the end'))).toEqual([]);
    const entered = crew.tablets.flatMap(({ entered }) =>
      [...entered.values()].flatMap((facts) => [...facts.keys()]),
    );
    expect(crew.saved).toBe(entered.length);
    expect(entered.length).toBeGreaterThan(100);
  });
});

describe('a server that relays before it commits', () => {
  const crew = new Crew(SEED + 100);
  beforeAll(() => crew.serve({ is: 'before-commit', at: 12, relayFirst: true }));
  afterAll(() => crew.close());

  it('is found out by the same check', async () => {
    await crew.work(() => crew.dead, 'the server to kill itself');
    const { lost, shownOnly, twice, other } = await crew.afterDeath();
    expect(shownOnly.length).toBeGreaterThan(0);
    expect(lost.length).toBeGreaterThan(0);
    expect([...twice, ...other]).toEqual([]);
  });
});
