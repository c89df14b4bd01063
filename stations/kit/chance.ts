/** Ids and moments: the only clock and the only randomness of the stations. */

const DIGITS = '0123456789abcdefghjkmnpqrstvwxyz';

/** A fact id: 20 of 32 signs, 100 random bits. */
export const newFactId = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(20)), (byte) => DIGITS[byte % 32]).join('');

const hex = (bytes: number): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(bytes)), (b) => b.toString(16).padStart(2, '0')).join('');

/** A session id: 32 hex digits, so that two desks never meet on one even when offline. */
export const newSessionId = (): string => hex(16);
/** A key of the people table; it says nothing about the person. */
export const newPersonRef = (): string => `p${hex(8)}`;

export const randomUint32 = (): number => crypto.getRandomValues(new Uint32Array(1))[0]!;

/** This moment in ISO 8601 with the station's own offset: `2026-01-09T09:12:00+01:00`. */
export function isoNow(date = new Date()): string {
  const offset = -date.getTimezoneOffset();
  const two = (n: number) => String(Math.trunc(n)).padStart(2, '0');
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, 19);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.abs(offset) / 60)}:${two(Math.abs(offset) % 60)}`;
}
