/** The shop's repeatability studies over HTTP: the floor takes them, the open corner sets the shop's σ by one. */
import { stringify } from 'csv-stringify/sync';
import type { Hono } from 'hono';
import type { Logger } from 'pino';
import { resultOf, SETTINGS, sigmaOf, STUDIED, studyTable, StudyShape } from '../core/index.ts';
import { body, No, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import { needOpen } from './corner-routes.ts';
import type { Corner } from './corner.ts';
import type { Env } from './env.ts';
import { BOUND } from './limits.ts';
import type { Stations } from './pair.ts';
import { ShopBody } from './shop-settings.ts';
import type { ShopSettings } from './shop-settings.ts';
import type { KeptStudy, Studies } from './studies.ts';

export interface StudyDeps {
  readonly stations: Stations;
  readonly corner: Corner;
  readonly settings: ShopSettings;
  readonly studies: Studies;
  readonly log: Logger;
  now(): number;
}

const FINISHED = new No(409, 'changed', 'This study is finished: its readings stay as they are.');
const UNFINISHED = new No(409, 'changed', 'This study is not finished: nothing can be set by it.');
const FULL = new No(409, 'studies-full', `The server holds ${BOUND.studies} studies, and takes no more.`);

export function studyRoutes(app: Hono<Env>, deps: StudyDeps): void {
  const { corner, settings, studies, log } = deps;
  const find = (id: string): KeptStudy => {
    const kept = studies.get(id);
    if (!kept) throw NOT_FOUND;
    return kept;
  };
  app.get('/api/studies', (c) => {
    need(deps, c, ['measuring', 'desk']);
    return c.json({ studies: studies.all() });
  });
  app.put('/api/studies/:id', async (c) => {
    const { number } = need(deps, c, ['measuring']);
    const id = c.req.param('id');
    if (!/^[A-Za-z0-9_-]{1,40}$/.test(id))
      throw new No(400, 'shape', 'id: must be 1 to 40 letters, digits, _ or -.');
    const kept = studies.put(id, await body(c, StudyShape));
    if (kept === 'finished') throw FINISHED;
    if (kept === 'full') throw FULL;
    log.info({ station: number, study: id }, 'study kept');
    return c.json(find(id));
  });
  app.get('/api/studies/:id/table', (c) => {
    need(deps, c, ['measuring', 'desk']);
    return c.body(stringify(studyTable(find(c.req.param('id')).study), { bom: true }), 200, {
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': 'attachment; filename="study.csv"',
    });
  });
  app.post('/api/corner/studies/:id/use', (c) => {
    const station = needOpen(deps, c);
    const { id, study } = find(c.req.param('id'));
    const result = resultOf(study);
    if (!result) throw UNFINISHED;
    const { setting } = STUDIED[study.of];
    const is = sigmaOf(result);
    const wanted = ShopBody.safeParse({ ...settings.values, [setting]: is });
    if (!wanted.success) throw new No(400, 'shape', `${setting}: ${wanted.error.issues[0]!.message}.`);
    const was = settings.values[setting] ?? null;
    settings.set(wanted.data, station.name);
    studies.use(id, {
      setting,
      was,
      standard: SETTINGS[setting].default,
      is,
      by: station.name,
      atMs: deps.now(),
    });
    corner.used(station);
    log.warn({ station: station.number, study: id, setting, was, is }, 'shop setting set by a study');
    return c.json(find(id));
  });
}
