/** The shop's repeatability studies, as the server keeps them (`docs/protocol.md`). */
import type { Study } from '../../../core/index.ts';
import { ask } from '../api.ts';

export interface KeptStudy {
  readonly id: string;
  readonly study: Study;
  /** A setting that it has set; null where none was. */
  readonly used: {
    readonly setting: string;
    readonly was: number | null;
    readonly standard: number;
    readonly is: number;
    readonly by: string;
    readonly atMs: number;
  } | null;
}

const at = (id: string): string => `/api/studies/${encodeURIComponent(id)}`;

export const studies = {
  all: () => ask<{ studies: KeptStudy[] }>('GET', '/api/studies'),
  put: (id: string, study: Study) => ask<KeptStudy>('PUT', at(id), study),
  use: (id: string) => ask<KeptStudy>('POST', `/api/corner/studies/${encodeURIComponent(id)}/use`, {}),
  tableUrl: (id: string) => `${at(id)}/table`,
};
