/** By which names and addresses this machine can be reached. */
import { hostname, networkInterfaces } from 'node:os';
import { isIP } from 'node:net';

/** Addresses of this machine that other machines can use, IPv4 first. */
function outerAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  const outer = all.filter(({ internal, address }) => !internal && !address.startsWith('fe80'));
  return outer.sort((a, b) => a.family.localeCompare(b.family)).map(({ address }) => address);
}

/** Every name and address, for certificates and Host headers. */
export function machineNames(extra: readonly string[]): string[] {
  const host = hostname().toLowerCase();
  const hosts = /^[a-z0-9.-]+$/.test(host) ? [host, ...(host.includes('.') ? [] : [`${host}.local`])] : [];
  return [
    ...new Set([...extra, 'fibula.local', 'localhost', ...hosts, '127.0.0.1', '::1', ...outerAddresses()]),
  ];
}

/** The one address stations use: what was asked for, else the first that other machines can reach. */
export function canonicalName(host: string | undefined, extra: readonly string[]): string {
  if (extra[0] !== undefined) return extra[0];
  const everywhere = host === undefined || host === '0.0.0.0' || host === '::';
  return everywhere ? (outerAddresses()[0] ?? 'localhost') : host;
}

export const isLoopback = (host: string | undefined): boolean =>
  host === 'localhost' || host === '::1' || (isIP(host ?? '') === 4 && host!.startsWith('127.'));
