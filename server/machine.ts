/** By which names and addresses this machine can be reached. */
import { hostname, networkInterfaces } from 'node:os';
import { BlockList, isIP } from 'node:net';

/** What other machines can use, IPv4 first. */
function outer() {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all
    .filter(({ internal, address }) => !internal && !address.startsWith('fe80'))
    .sort((a, b) => a.family.localeCompare(b.family));
}

const outerAddresses = (): string[] => outer().map(({ address }) => address);

/**
 * Addresses of this machine that `asker` can reach: those of the network that both are in, where that is known.
 * A machine may have others, for virtual machines and tunnels, that lead nowhere from a tablet.
 */
export function addressesFor(asker?: string): readonly string[] {
  const near = outer().filter(({ cidr, family }) => {
    const [base, prefix] = (cidr ?? '').split('/');
    if (!asker || !base || !prefix || isIP(asker) !== isIP(base)) return false;
    const kind = family === 'IPv4' ? 'ipv4' : 'ipv6';
    const list = new BlockList();
    list.addSubnet(base, Number(prefix), kind);
    return list.check(asker, kind);
  });
  return near.length > 0 ? near.map(({ address }) => address) : outerAddresses();
}

/** Every name and address, for certificates and Host headers. */
export function machineNames(extra: readonly string[]): string[] {
  const host = hostname().toLowerCase();
  const hosts = /^[a-z0-9.-]+$/.test(host) ? [host, ...(host.includes('.') ? [] : [`${host}.local`])] : [];
  return [...new Set([...extra, 'localhost', ...hosts, '127.0.0.1', '::1', ...outerAddresses()])];
}

/** The one address stations use: what was asked for, else the first that other machines can reach. */
export function canonicalName(host: string | undefined, extra: readonly string[]): string {
  if (extra[0] !== undefined) return extra[0];
  const everywhere = host === undefined || host === '0.0.0.0' || host === '::';
  return everywhere ? (outerAddresses()[0] ?? 'localhost') : host;
}

export const isLoopback = (host: string | undefined): boolean =>
  host === 'localhost' || host === '::1' || (isIP(host ?? '') === 4 && host!.startsWith('127.'));
