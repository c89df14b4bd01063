/** Which names this server answers to, and whether a request comes from one of its own pages. */
import { isIP } from 'node:net';

export interface Origins {
  readonly scheme: 'https' | 'http';
  /** Lower-case names, without port. Addresses always pass: no foreign site can make a name of one. */
  readonly names: ReadonlySet<string>;
}

type Headers = (name: string) => string | undefined;

/** The name in a Host header, lower case, without port and brackets; null for a malformed one. */
export function hostName(host: string | undefined): string | null {
  const match = /^(?:\[([0-9a-f:.]+)\]|([a-z0-9._-]+))(?::\d{1,5})?$/i.exec(host ?? '');
  return match ? (match[1] ?? match[2]!).toLowerCase().replace(/\.$/, '') : null;
}

/** Guards against a foreign name that was made to point at this machine. */
export function isOurHost({ names }: Origins, host: string | undefined): boolean {
  const name = hostName(host);
  return name !== null && (isIP(name) !== 0 || names.has(name));
}

/** A change is taken from our own pages, and from programs that say so as a page would. */
export function isSameOrigin({ scheme }: Origins, header: Headers): boolean {
  const origin = header('origin');
  if (origin !== undefined) return origin === `${scheme}://${header('host')}`;
  return header('sec-fetch-site') === 'same-origin';
}

/** A socket without Origin comes from a program: browsers always send one. */
export const mayOpenSocket = (origins: Origins, header: Headers): boolean =>
  isOurHost(origins, header('host')) && (header('origin') === undefined || isSameOrigin(origins, header));
