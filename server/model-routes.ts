/** The shop's catalogue of boots over HTTP: every station that works on boots reads it, the desk writes it. */
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import type { Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import type { Logger } from 'pino';
import { modelTable, readBoot, readModelTable } from '../core/index.ts';
import type { CatalogueBoot } from '../core/index.ts';
import { No, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import type { Env } from './env.ts';
import { BOUND } from './limits.ts';
import type { Models } from './models.ts';
import type { Stations } from './pair.ts';

export interface ModelDeps {
  readonly stations: Stations;
  readonly models: Models;
  readonly log: Logger;
}

const TABLE = '/api/models/table';

/** Whether this path takes a whole table, and so a larger body than the rest. */
export const takesTable = (path: string): boolean => path === TABLE;

export const tableBody = bodyLimit({
  maxSize: BOUND.tableBytes,
  onError: () => {
    throw new No(413, 'too-large', `A table has at most ${BOUND.tableBytes} bytes.`);
  },
});

const TOO_MANY = new No(409, 'models-full', `A catalogue holds ${BOUND.models} models; remove some first.`);

/** The cells of a file as spreadsheets write it: comma or semicolon between them, with or without a mark of its encoding. */
function cellsOf(file: Uint8Array): string[][] {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(file);
  } catch {
    throw new No(400, 'no-table', 'The file is not UTF-8 text: save it as CSV in UTF-8.');
  }
  const [heads = ''] = text.split('\n', 1);
  const delimiter = [',', ';', '\t'].toSorted((a, b) => heads.split(b).length - heads.split(a).length)[0]!;
  try {
    // `relax_column_count`: a row of another length is named with the rest of what is wrong.
    return parse(text, { delimiter, relax_column_count: true, skip_empty_lines: false }) as string[][];
  } catch (error) {
    throw new No(400, 'no-table', `The file is no CSV: ${(error as Error).message}.`);
  }
}

export function modelRoutes(app: Hono<Env>, { stations, models, log }: ModelDeps): void {
  const desk = (c: Context<Env>) => need({ stations }, c, ['desk']);
  app.get('/api/models', (c) => {
    need({ stations }, c, ['desk', 'measuring', 'bench']);
    return c.json({ models: models.all() });
  });
  app.put('/api/models', async (c) => {
    const { number } = desk(c);
    const raw: unknown = await c.req.json().catch((error: unknown) => {
      throw error instanceof No ? error : new No(400, 'not-json', 'The request’s body is not JSON.');
    });
    const read = readBoot(raw);
    if (!read.ok)
      throw new No(400, 'shape', `${read.misfits[0]!.field || 'The body'}: ${read.misfits[0]!.wants}.`);
    if (models.put([read.boot]) === null) throw TOO_MANY;
    log.info({ station: number, model: read.boot.model }, 'model kept');
    return c.json<CatalogueBoot>(read.boot);
  });
  app.get(TABLE, (c) => {
    desk(c);
    return c.body(stringify(modelTable(models.all()), { bom: true }), 200, {
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': 'attachment; filename="boots.csv"',
    });
  });
  app.post(TABLE, async (c) => {
    const { number } = desk(c);
    const read = readModelTable(cellsOf(new Uint8Array(await c.req.arrayBuffer())));
    // Faults are an answer of their own: the page shows them cell by cell.
    if (!read.ok) return c.json({ taken: 0, faults: read.faults });
    const replaced = models.put(read.boots);
    if (replaced === null) throw TOO_MANY;
    log.info({ station: number, models: read.boots.length }, 'catalogue imported');
    return c.json({ taken: read.boots.length, replaced, faults: [] });
  });
  app.delete('/api/models/:model', (c) => {
    const { number } = desk(c);
    const model = c.req.param('model');
    if (!models.remove(model)) throw NOT_FOUND;
    log.info({ station: number, model }, 'model removed');
    return c.json({ ok: true });
  });
}
