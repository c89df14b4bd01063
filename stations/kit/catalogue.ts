/** The shop's catalogue of boots, as the server keeps it (`docs/protocol.md`). */
import type { CatalogueBoot, CellFault } from '../../core/index.ts';
import { ask } from './api.ts';

export interface Imported {
  /** 0: nothing was taken, for these faults. */
  readonly taken: number;
  readonly replaced?: number;
  readonly faults: readonly CellFault[];
}

export const TABLE = '/api/models/table';

export const catalogue = {
  models: () => ask<{ models: CatalogueBoot[] }>('GET', '/api/models'),
  keep: (boot: CatalogueBoot) => ask<CatalogueBoot>('PUT', '/api/models', boot),
  remove: (model: string) => ask<{ ok: true }>('DELETE', `/api/models/${encodeURIComponent(model)}`),
  importTable: (file: Blob) => ask<Imported>('POST', TABLE, file),
};
