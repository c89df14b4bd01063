/** The server's HTTP answers, as the stations use them (`docs/protocol.md`). */
import type { StationRole } from '../../core/index.ts';
import { shopClock } from './clock.ts';

/** A session's room of today. `known: false`: a restore has lost the session; `erased`: so are its personal texts. */
export interface RoomAnswer {
  readonly room: string;
  readonly known: boolean;
  readonly erased: boolean;
}

export interface Me {
  /** Appears in facts as `by.station`; survives re-pairing. */
  readonly device: string;
  /** Upper part of this station's Yjs client ids. */
  readonly number: number;
  readonly name: string;
  readonly roles: readonly StationRole[];
  /** Names the boards of this run of the server. */
  readonly boot: string | number;
  /** Of sessions that are not there yet; a restore from a backup raises it. */
  readonly generation: number;
  readonly protocol: number;
  readonly plain: boolean;
  readonly shop: { readonly name: string; readonly timeZone: string };
}

export interface Person {
  readonly ref: string;
  readonly name: string;
  readonly contact?: string | null;
  readonly language?: string | null;
}

export interface PairingCode {
  readonly code: string;
  readonly roles: readonly StationRole[];
  readonly expiresAt: string | number;
}

/** A `code` of `unreachable` means no answer came at all. */
export interface ApiError {
  readonly status: number;
  readonly code: string;
  readonly text: string;
}

export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: ApiError };

/** A server that is switched off refuses nobody: a browser alone would wait for minutes. */
const PATIENCE_MS = 15_000;

/** One request to the server, a file as it is and all else as JSON; every error is an answer. */
export async function ask<T>(
  method: string,
  path: string,
  body?: unknown,
  patienceMs = PATIENCE_MS,
): Promise<Answer<T>> {
  let response: Response;
  try {
    response = await fetch(path, {
      method,
      credentials: 'same-origin',
      headers: body === undefined || body instanceof Blob ? {} : { 'content-type': 'application/json' },
      body: body === undefined ? null : body instanceof Blob ? body : JSON.stringify(body),
      signal: AbortSignal.timeout(patienceMs),
    });
  } catch {
    return { ok: false, error: { status: 0, code: 'unreachable', text: '' } };
  }
  shopClock.note(response.headers.get('date'));
  const json: unknown = await response.json().catch(() => null);
  if (response.ok) return { ok: true, value: json as T };
  const error = (json as { error?: { code?: string; text?: string } } | null)?.error;
  return {
    ok: false,
    error: { status: response.status, code: error?.code ?? 'unknown', text: error?.text ?? '' },
  };
}

export const api = {
  me: () => ask<Me>('GET', '/api/me'),
  pair: (request: { code: string; name?: string; device?: string }) => ask<Me>('POST', '/api/pair', request),
  newCode: (roles: readonly StationRole[]) => ask<PairingCode>('POST', '/api/codes', { roles }),
  findPeople: (q: string) => ask<{ people: Person[] }>('GET', `/api/people?q=${encodeURIComponent(q)}`),
  protocol: () => ask<{ protocol: number }>('GET', '/healthz'),
  person: (ref: string) => ask<Person>('GET', `/api/people/${encodeURIComponent(ref)}`),
  putPerson: (ref: string, person: { name: string; contact?: string; language?: string }) =>
    ask<Person>('PUT', `/api/people/${encodeURIComponent(ref)}`, person),
  room: (session: string) => ask<RoomAnswer>('GET', `/api/sessions/${encodeURIComponent(session)}/room`),
};
