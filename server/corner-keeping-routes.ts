/** What the open corner keeps and lets go: the state of backups, and a client's personal data. */
import type { Hono } from 'hono';
import type { Logger } from 'pino';
import { z } from 'zod';
import { body, No, NOT_FOUND } from './answer.ts';
import type { ClientFile } from './clients.ts';
import { needOpen } from './corner-routes.ts';
import type { Corner } from './corner.ts';
import type { Env } from './env.ts';
import type { Keeper } from './keeper.ts';
import type { Stations } from './pair.ts';

export interface CornerKeepingDeps {
  readonly stations: Stations;
  readonly corner: Corner;
  readonly keeper: Keeper;
  readonly log: Logger;
}

const EraseBody = z.strictObject({
  /** Typed by the person who erases. */
  name: z.string().trim().min(1, 'type the name of the client').max(200),
  /** Whether the daily backups are rewritten too. */
  backups: z.boolean().default(false),
});

const OTHER_NAME = new No(
  409,
  'other-name',
  'name: this is not the name of this client. Nothing was erased; type the name as it is shown.',
);

export function cornerKeepingRoutes(app: Hono<Env>, deps: CornerKeepingDeps): void {
  const { corner, keeper, log } = deps;
  app.get('/api/corner/backups', (c) => {
    needOpen(deps, c);
    return c.json(keeper.backups());
  });
  app.get('/api/corner/people/:ref', (c) => {
    needOpen(deps, c);
    return c.json(shown(known(keeper, c.req.param('ref'))));
  });
  app.post('/api/corner/people/:ref/erase', async (c) => {
    const asker = needOpen(deps, c);
    const ref = c.req.param('ref');
    const { name, backups } = await body(c, EraseBody);
    if (alike(name) !== alike(known(keeper, ref).person.name)) throw OTHER_NAME;
    corner.used(asker);
    const erased = await keeper.erase(ref, backups);
    if (!erased) throw NOT_FOUND; // by another desk, meanwhile
    const { sessions, rewritten, failed } = erased;
    log.warn(
      { by: asker.number, sessions, backups, failed: failed.length },
      'personal data erased at a desk',
    );
    return c.json({ sessions, rewritten: rewritten.length, failed: failed.length });
  });
}

type Named = ClientFile & { readonly person: NonNullable<ClientFile['person']> };

/** Somebody of whom a name is kept; throws a `No` otherwise: without one there is nothing personal left. */
function known(keeper: Keeper, ref: string): Named {
  const file = keeper.export(ref);
  if (!file?.person) throw NOT_FOUND;
  return { ...file, person: file.person };
}

function shown({ ref, person, sessions }: Named) {
  return {
    person: { ref, ...person },
    sessions: sessions.map(({ session, openedAt, lastAt, closed, facts }) => {
      const opened = facts.find(({ kind }) => kind === 'session.opened');
      const ticket = opened?.kind === 'session.opened' ? opened.ticket : null;
      return { session, ticket, openedAt, lastAt, closed };
    }),
  };
}

/** Case, spaces and the way an accent is written are no difference between names. */
const alike = (name: string): string => name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();
