/**
 * The shop's own certificate authority: what it may vouch for, and how one follows another.
 *
 * It may vouch for this shop's names and for private addresses, and for no others: a stolen key is of no use
 * against any other site. Its key never leaves the data directory.
 */
import 'reflect-metadata';
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, renameSync } from 'node:fs';
import { BlockList, isIP } from 'node:net';
import { join } from 'node:path';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import { ALGORITHM, makeKeys, readPair, serial, validity, writePair } from './key-pair.ts';
import type { Pair } from './key-pair.ts';
import type { Outside } from './outside.ts';
import { syncDirectory } from './schema.ts';

const AUTHORITY_DAYS = 3650;
const NOW = 'ca';
const NEXT = 'ca-next';
const OLD = 'old';

/** Addresses that exist on many networks and belong to none: where a workshop's server lives. */
const PRIVATE_RANGES = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '127.0.0.0/8',
  '169.254.0.0/16',
  '::1/128',
  'fc00::/7',
  'fe80::/10',
];

export interface Authorities {
  readonly now: Pair;
  /** One that was made to take over, and is offered to devices meanwhile. */
  readonly next: Pair | undefined;
}

/** Reads both from `directory`, and makes the first where there is none. */
export async function authorities(
  directory: string,
  names: readonly string[],
  outside: Outside,
): Promise<Authorities> {
  if (existsSync(file(directory, NEXT, 'crt')) && !existsSync(file(directory, NEXT, 'key')))
    moveOver(directory); // a change of authority was interrupted half-way
  const now = await readPair(directory, NOW);
  const next = await readPair(directory, NEXT);
  if (now) return { now, next };
  return { now: await makeAuthority(directory, NOW, names, outside), next };
}

/** Makes the authority that is to follow, for `names`. It vouches for nothing yet. */
export const prepareNext = (directory: string, names: readonly string[], outside: Outside): Promise<Pair> =>
  makeAuthority(directory, NEXT, names, outside);

/**
 * Puts the prepared authority in the place of the present one, which is kept aside under `old`. Throws where
 * none was prepared.
 */
export function switchToNext(directory: string, nowMs: number): void {
  if (!existsSync(file(directory, NEXT, 'crt')))
    throw new Error('no next authority has been prepared; do that first, with --prepare');
  const stamp = new Date(nowMs).toISOString().slice(0, 19).replaceAll(':', '-');
  const aside = join(directory, OLD, stamp);
  mkdirSync(aside, { recursive: true, mode: 0o700 });
  for (const end of ['key', 'crt'])
    if (existsSync(file(directory, NOW, end)))
      copyFileSync(file(directory, NOW, end), join(aside, `${NOW}.${end}`));
  syncDirectory(aside);
  moveOver(directory);
}

/** The key first, so that a stop in between shows as a certificate whose key has gone ahead. */
function moveOver(directory: string): void {
  for (const end of ['key', 'crt'])
    if (existsSync(file(directory, NEXT, end)))
      renameSync(file(directory, NEXT, end), file(directory, NOW, end));
  syncDirectory(directory);
}

const file = (directory: string, name: string, end: string): string => join(directory, `${name}.${end}`);

async function makeAuthority(
  directory: string,
  file: string,
  names: readonly string[],
  outside: Outside,
): Promise<Pair> {
  const keys = await makeKeys();
  const public_ = names.filter((name) => isIP(name) && !PRIVATE_RANGES.some((range) => inRange(name, range)));
  const permitted = [
    ...names.filter((name) => !isIP(name)).map((dNSName) => new GeneralName({ dNSName })),
    ...[...PRIVATE_RANGES, ...public_.map((address) => `${address}/${isIP(address) === 4 ? 32 : 128}`)].map(
      (iPAddress) => new GeneralName({ iPAddress }),
    ),
  ].map((base) => new GeneralSubtree({ base }));
  const constraints = new NameConstraints({ permittedSubtrees: new GeneralSubtrees(permitted) });
  const tag = Buffer.from(outside.randomBytes(3)).toString('hex');
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(outside),
    name: `CN=Fibula workshop authority ${tag}`,
    ...validity(outside.now(), AUTHORITY_DAYS),
    signingAlgorithm: ALGORITHM,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(constraints)),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  await writePair(directory, file, { certificate, keys });
  return { certificate, keys };
}

/** SHA-256 of a certificate, upper-case hexadecimal pairs with colons. */
export const fingerprintOf = (certificate: x509.X509Certificate): string =>
  createHash('sha256')
    .update(Buffer.from(certificate.rawData))
    .digest('hex')
    .toUpperCase()
    .match(/../g)!
    .join(':');

/** Those of `names` (DNS names and IP addresses) that the authority may vouch for. */
export function coveredBy(authority: x509.X509Certificate, names: readonly string[]): string[] {
  const extension = authority.getExtension(id_ce_nameConstraints);
  if (!extension) return [];
  const permitted = AsnConvert.parse(extension.value, NameConstraints).permittedSubtrees ?? [];
  const allowed = [...permitted].map(({ base }) => base);
  return names.filter((name) => isAllowed(allowed, name));
}

const isAllowed = (allowed: readonly GeneralName[], name: string): boolean =>
  allowed.some(({ dNSName, iPAddress }) =>
    isIP(name)
      ? iPAddress !== undefined && inRange(name, iPAddress)
      : dNSName !== undefined && (name === dNSName || name.endsWith(`.${dNSName}`)),
  );

/** Whether an address lies in `range`, written as address/prefix. */
function inRange(address: string, range: string): boolean {
  const [base, prefix] = range.split('/') as [string, string];
  const family = isIP(base) === 4 ? 'ipv4' : 'ipv6';
  const list = new BlockList();
  list.addSubnet(base, Number(prefix), family);
  return isIP(address) === isIP(base) && list.check(address, family);
}
