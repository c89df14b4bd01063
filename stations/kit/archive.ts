/** The sessions of all seasons, as the server finds them (`docs/protocol.md`). */
import type { Found, Standing } from '../../core/index.ts';
import { ask } from './api.ts';

export const archive = {
  find: (typed: string, standing: Standing) =>
    ask<Found>('GET', `/api/archive?standing=${standing}&q=${encodeURIComponent(typed)}`),
  ofClient: (ref: string) => ask<Found>('GET', `/api/people/${encodeURIComponent(ref)}/sessions`),
};
