/** Facts for the server's tests: small, valid, by whoever is asked for. */
import { CLIENT_SPAN } from '../../../core/index.ts';
import type { Role } from '../../../core/index.ts';

export const clientOf = (station: number, page = 1): number => station * CLIENT_SPAN + page;

/** Any fact, as a plain value that a test may spoil. */
export const entry = (
  id: string,
  role: Role,
  station: string,
  rest: Record<string, unknown>,
): Record<string, unknown> => ({ id, at: '2026-01-09T09:12:00+01:00', by: { role, station }, ...rest });

export const opened = (id = 'opened', station = 'desk-3', ticket = '3-1') =>
  entry(id, 'desk', station, { kind: 'session.opened', ticket, clientRef: 'c1', service: 'cuffs' });

export const floor = (id: string, station = 'measuring-5', crossDeg = 0.5) =>
  entry(id, 'measuring', station, { kind: 'floor.checked', crossDeg, alongDeg: 0 });

export const reading = (id: string, gapMm: number, station = 'measuring-5') =>
  entry(id, 'measuring', station, {
    kind: 'cuff.read',
    side: 'left',
    medialMm: gapMm,
    lateralMm: 8,
    contact: 'none',
    to: 'shell',
    liner: 'in',
    stanceWidthMm: 240,
    widestAt: 'middle',
    posture: { parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true },
  });

export const snow = (id: string, station: string, note: string) =>
  entry(id, 'desk', station, { kind: 'home.checked', note });
