/** The desk's locked corner, as the server tells it (`docs/protocol.md`). */
import type { BackupStatus, Fact, StationRole } from '../../core/index.ts';
import { ask } from '../kit/api.ts';
import type { Person } from '../kit/api.ts';
import type { Opening } from './opening.ts';

export interface CornerState {
  readonly pinSet: boolean;
  /** ISO 8601; null while it is locked to this desk. */
  readonly unlockedUntil: string | null;
  /** Until the next PIN is heard. */
  readonly waitSeconds: number;
  readonly waiting: { readonly requests: number; readonly entries: number; readonly notices: number };
}

export interface ListedStation {
  readonly number: number;
  readonly device: string;
  readonly name: string;
  readonly roles: readonly StationRole[];
  readonly pairedMs: number;
  readonly seenMs: number | null;
  readonly revokedMs: number | null;
  readonly connected: boolean;
  readonly own: boolean;
}

export interface BackRequest {
  readonly id: string;
  readonly number: string;
  readonly device: string;
  readonly address: string;
  readonly askedMs: number;
  readonly standing: 'known' | 'revoked' | 'unknown';
  readonly name: string | null;
  readonly roles: readonly StationRole[];
  readonly revokedMs: number | null;
}

export interface Backlog {
  readonly station: number;
  readonly session: string;
  readonly ticket: string | null;
  readonly device: string;
  readonly name: string;
  readonly waiting: number;
  readonly taken: number;
  readonly thrown: number;
  readonly lastMs: number;
}

export interface QuarantineEntry {
  readonly fact: string;
  readonly state: 'waiting' | 'refused' | 'taken' | 'thrown';
  readonly reason: string | null;
  readonly value: Fact | null;
}

export interface OpenBacklog {
  readonly backlog: Backlog;
  readonly entries: readonly QuarantineEntry[];
}

/** Who has last changed a setting, ms since 1970; `was`: what stood before, null for none or the default. */
export interface EnteredBy {
  readonly by: string;
  readonly atMs: number;
  readonly was: number | null;
}

/** The shop's own values in the place of the defaults, by name. */
export type ShopValues = Readonly<Record<string, number>>;

export interface Site {
  readonly address: string;
  readonly byName: string | null;
  /** Times are ISO 8601. Null over plain http. */
  readonly certificate: {
    readonly fingerprint: string;
    readonly madeAt: string;
    readonly renewsAt: string;
    readonly endsAt: string;
    readonly authorityEndsAt: string;
  } | null;
  readonly notices: readonly { readonly code: string; readonly text: string }[];
}

export interface Backups {
  /** `03:00`; null when none are made by themselves. */
  readonly due: string | null;
  readonly directory: string;
  /** Newest first; a day is `2026-01-09`. */
  readonly copies: readonly { readonly day: string; readonly bytes: number }[];
  readonly state: BackupStatus;
}

export interface ClientFile {
  readonly person: Person;
  readonly sessions: readonly {
    readonly session: string;
    readonly ticket: string | null;
    readonly openedAt: string;
    readonly closed: boolean;
  }[];
}

export interface Erased {
  readonly sessions: number;
  readonly rewritten: number;
  readonly failed: number;
}

const at = '/api/corner';
/** Every daily backup may be rewritten and read again. */
const ERASE_MS = 10 * 60_000;
const of = ({ station, session }: Backlog) => `${at}/quarantine/${station}/${session}`;
type Stations = { readonly stations: readonly ListedStation[] };
type Requests = { readonly requests: readonly BackRequest[] };

export const corner = {
  state: () => ask<CornerState>('GET', at),
  setPin: (pin: string, again: string, old?: string) =>
    ask<CornerState>('POST', `${at}/pin`, { pin, again, ...(old === undefined ? {} : { old }) }),
  unlock: (pin: string) => ask<CornerState>('POST', `${at}/unlock`, { pin }),
  lock: () => ask<CornerState>('POST', `${at}/lock`, {}),
  stations: () => ask<Stations>('GET', `${at}/stations`),
  change: (number: number, to: { name?: string; roles?: readonly StationRole[] }) =>
    ask<Stations>('PATCH', `${at}/stations/${number}`, to),
  revoke: (number: number) => ask<Stations>('POST', `${at}/stations/${number}/revoke`, {}),
  requests: () => ask<Requests>('GET', `${at}/requests`),
  approve: ({ id, number, standing }: BackRequest, roles: readonly StationRole[]) =>
    ask<Requests>('POST', `${at}/requests/${id}/approve`, { number, standing, roles }),
  refuse: ({ id }: BackRequest) => ask<Requests>('POST', `${at}/requests/${id}/refuse`, {}),
  backlogs: () => ask<{ backlogs: readonly Backlog[] }>('GET', `${at}/quarantine`),
  backlog: (backlog: Backlog) => ask<OpenBacklog>('GET', of(backlog)),
  takeIn: (backlog: Backlog) => ask<OpenBacklog>('POST', `${of(backlog)}/take`, {}),
  throwAway: (backlog: Backlog) =>
    ask<OpenBacklog>('POST', `${of(backlog)}/throw-away`, { count: backlog.waiting }),
  exportUrl: (backlog: Backlog) => `${of(backlog)}/export`,
  settings: () => ask<{ values: ShopValues }>('GET', '/api/settings'),
  opening: () => ask<Opening>('GET', '/api/opening'),
  setOpening: (value: Opening) => ask<Opening>('PUT', '/api/opening', value),
  entered: () => ask<{ entered: Readonly<Record<string, EnteredBy>> }>('GET', '/api/settings/entered'),
  setSettings: (values: ShopValues) => ask<{ values: ShopValues }>('PUT', `${at}/settings`, values),
  site: () => ask<Site>('GET', '/api/site'),
  backups: () => ask<Backups>('GET', `${at}/backups`),
  client: (ref: string) => ask<ClientFile>('GET', `${at}/people/${encodeURIComponent(ref)}`),
  erase: (ref: string, how: { name: string; backups: boolean }) =>
    ask<Erased>('POST', `${at}/people/${encodeURIComponent(ref)}/erase`, how, ERASE_MS),
  clientUrl: (ref: string) => `/api/people/${encodeURIComponent(ref)}/export`,
  sessionUrl: (session: string) => `/api/sessions/${session}/export`,
};
