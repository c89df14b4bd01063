/** What the shop has learned, as the server tells it (`docs/protocol.md`). */
import type { FarOffTold, LearnedTold, MoveChoice, MoveTold } from '../../core/index.ts';
import { ask } from './api.ts';

export const learned = {
  report: () => ask<LearnedTold>('GET', '/api/learned'),
  moves: (model: string) =>
    ask<{ moves: MoveTold[] }>('GET', `/api/learned/moves?model=${encodeURIComponent(model)}`),
  decide: ({ session, before, after }: FarOffTold, choice: MoveChoice) =>
    ask<LearnedTold>('POST', '/api/learned/choices', { session, before, after, ...choice }),
};
