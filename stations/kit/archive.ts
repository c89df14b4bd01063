/** The sessions of all seasons, as the server finds them (`docs/protocol.md`). */
import { ask } from './api.ts';

export interface FoundSession {
  readonly session: string;
  readonly generation: number;
  readonly ticket: string;
  readonly clientRef: string | null;
  /** Null when it was erased. */
  readonly name: string | null;
  readonly service: string;
  readonly models: readonly string[];
  readonly tags: readonly string[];
  /** By the server's clock, ms since 1970. */
  readonly openedMs: number;
  readonly lastMs: number;
  readonly closed: boolean;
}

export interface Found {
  /** The newest first. */
  readonly found: readonly FoundSession[];
  readonly more: number;
  /** Sessions of an older program that are not read for it yet. */
  readonly unread: number;
}

export const STANDINGS = ['all', 'open', 'finished'] as const;
export type Standing = (typeof STANDINGS)[number];

export const archive = {
  find: (typed: string, standing: Standing) =>
    ask<Found>('GET', `/api/archive?standing=${standing}&q=${encodeURIComponent(typed)}`),
  ofClient: (ref: string) => ask<Found>('GET', `/api/people/${encodeURIComponent(ref)}/sessions`),
};
