/** The shop's numbers over HTTP, for the desk: to be shown, and as a table for other programs. */
import { stringify } from 'csv-stringify/sync';
import type { Hono } from 'hono';
import { bucketFor, dayOf, numbersTable, PERIODS } from '../core/index.ts';
import type { BucketOf, NumbersTold } from '../core/index.ts';
import { No } from './answer.ts';
import { need } from './asker.ts';
import type { AskerDeps } from './asker.ts';
import type { Env } from './env.ts';
import { BOUND } from './limits.ts';
import type { Asked, Numbers } from './numbers.ts';

const BUCKETS: readonly BucketOf[] = ['hour', ...PERIODS];
/** The least days that a bucket has: by them it is known how many there would be. */
const LEAST_DAYS: Readonly<Record<BucketOf, number>> = {
  hour: 1 / 24,
  day: 1,
  week: 7,
  month: 28,
  season: 365,
};

/** Days of which any clock could tell; outside of them the calendar's texts have another form. */
const dayIn = (text: string | undefined): number | null => {
  const day = dayOf(text ?? '');
  return day !== null && day >= dayOf('1971-01-01')! && day <= dayOf('2999-12-31')! ? day : null;
};

/** `from` and `to` are days of the shop, both of them in it; `by` is what fits them, unless it is told. */
export function askedOf(told: Readonly<Record<'from' | 'to' | 'by', string | undefined>>): Asked {
  const [from, last] = [dayIn(told.from), dayIn(told.to)];
  if (from === null) throw new No(400, 'shape', 'from: must be a day such as 2026-01-09.');
  if (last === null) throw new No(400, 'shape', 'to: must be a day such as 2026-01-09.');
  if (last < from) throw new No(400, 'shape', 'to: must not be before from.');
  const to = last + 1;
  const by = told.by === undefined ? bucketFor({ from, to }) : BUCKETS.find((each) => each === told.by);
  if (!by) throw new No(400, 'shape', `by: must be ${BUCKETS.join(', ')}.`);
  if ((to - from) / LEAST_DAYS[by] > BOUND.buckets)
    throw new No(400, 'shape', `to: must make at most ${BOUND.buckets} pieces with from and by.`);
  return { from, to, by };
}

export function numbersRoutes(
  app: Hono<Env>,
  deps: Pick<AskerDeps, 'stations'> & { readonly numbers: Numbers },
): void {
  const asked = (query: (name: string) => string | undefined) =>
    askedOf({ from: query('from'), to: query('to'), by: query('by') });
  app.get('/api/numbers', async (c) => {
    need(deps, c, ['desk']);
    return c.json<NumbersTold>(await deps.numbers.told(asked((name) => c.req.query(name))));
  });
  app.get('/api/numbers/table', async (c) => {
    need(deps, c, ['desk']);
    const told = await deps.numbers.told(asked((name) => c.req.query(name)));
    // As RFC 4180 has it; the mark of its encoding is for spreadsheets.
    return c.body(stringify(numbersTable(told), { bom: true, record_delimiter: 'windows' }), 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': `attachment; filename="numbers-${told.from}-${told.to}.csv"`,
    });
  });
}
