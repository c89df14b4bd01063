/**
 * The shop's own certificate authority and the server's certificate under it.
 *
 * The authority may vouch for this shop's names and for private addresses, and for no others: a stolen key is of
 * no use against any other site. Its key never leaves the data directory.
 */
import 'reflect-metadata';
import { createHash, webcrypto } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  writeSync,
} from 'node:fs';
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
import type { Outside } from './outside.ts';
import { syncDirectory, UnusableData } from './schema.ts';

export interface ServerCertificate {
  /** The server's certificate, PEM. */
  readonly cert: string;
  /** Its key, PEM. */
  readonly key: string;
  /** The authority's certificate, DER. */
  readonly authority: Uint8Array;
  /** SHA-256 of the authority's certificate, upper-case hexadecimal pairs with colons. */
  readonly fingerprint: string;
  /** Names and addresses asked for that the authority may not vouch for; they need a new authority. */
  readonly uncovered: readonly string[];
}

const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const DAY_MS = 86_400_000;
const AUTHORITY_DAYS = 3650;
/** Browsers take at most 398 days from public authorities; the same is wise here. */
const LEAF_DAYS = 397;
const RENEW_DAYS = 30;
/** A clock that is a little behind must not find the certificate too young. */
const BACKDATE_MS = DAY_MS;

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

interface Pair {
  readonly certificate: x509.X509Certificate;
  readonly keys: CryptoKeyPair;
}

x509.cryptoProvider.set(webcrypto as Crypto);

/**
 * Reads or makes both certificates in `directory`. The server's is made anew when it lacks one of `names`
 * (DNS names and IP addresses) or ends soon. Throws `UnusableData` when the files there do not fit together.
 */
export async function serverCertificate(
  directory: string,
  names: readonly string[],
  outside: Outside,
): Promise<ServerCertificate> {
  if (!existsSync(directory)) mkdirSync(directory, { recursive: true, mode: 0o700 });
  const authority = (await readPair(directory, 'ca')) ?? (await makeAuthority(directory, names, outside));
  const constraints = allowedBy(authority.certificate);
  const covered = names.filter((name) => isAllowed(constraints, name));
  const leaf = await readPair(directory, 'server');
  const current =
    leaf && (await isGood(leaf.certificate, authority.certificate, covered, outside.now()))
      ? leaf
      : await makeLeaf(directory, authority, covered, outside);
  const der = new Uint8Array(authority.certificate.rawData);
  return {
    cert: current.certificate.toString('pem'),
    key: await keyPem(current.keys.privateKey),
    authority: der,
    fingerprint: createHash('sha256').update(der).digest('hex').toUpperCase().match(/../g)!.join(':'),
    uncovered: names.filter((name) => !covered.includes(name)),
  };
}

async function makeAuthority(directory: string, names: readonly string[], outside: Outside): Promise<Pair> {
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
    ...validity(outside, AUTHORITY_DAYS),
    signingAlgorithm: ALGORITHM,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(constraints)),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  await writePair(directory, 'ca', { certificate, keys });
  return { certificate, keys };
}

async function makeLeaf(
  directory: string,
  authority: Pair,
  names: readonly string[],
  outside: Outside,
): Promise<Pair> {
  const keys = await makeKeys();
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serial(outside),
    subject: 'CN=Fibula server',
    issuer: authority.certificate.subject,
    ...validity(outside, LEAF_DAYS),
    signingAlgorithm: ALGORITHM,
    publicKey: keys.publicKey,
    signingKey: authority.keys.privateKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((value) => new x509.GeneralName(isIP(value) ? 'ip' : 'dns', value)),
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(authority.certificate.publicKey),
    ],
  });
  await writePair(directory, 'server', { certificate, keys });
  return { certificate, keys };
}

async function isGood(
  leaf: x509.X509Certificate,
  authority: x509.X509Certificate,
  names: readonly string[],
  now: number,
): Promise<boolean> {
  const held =
    leaf.getExtension(x509.SubjectAlternativeNameExtension)?.names.items.map(({ value }) => value) ?? [];
  const lasts = leaf.notAfter.getTime() - now > RENEW_DAYS * DAY_MS && leaf.notBefore.getTime() <= now;
  return (
    lasts &&
    names.every((name) => held.includes(name)) &&
    (await leaf.verify({ publicKey: authority, signatureOnly: true }))
  );
}

const makeKeys = async () =>
  (await webcrypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify'])) as CryptoKeyPair;

/** Positive and unpredictable, 16 bytes. */
const serial = ({ randomBytes }: Outside): string => `01${Buffer.from(randomBytes(15)).toString('hex')}`;

const validity = ({ now }: Outside, days: number) => ({
  notBefore: new Date(now() - BACKDATE_MS),
  notAfter: new Date(now() - BACKDATE_MS + days * DAY_MS),
});

/** Names and ranges the authority may vouch for. */
function allowedBy(authority: x509.X509Certificate): readonly GeneralName[] {
  const extension = authority.getExtension(id_ce_nameConstraints);
  if (!extension) return [];
  return [...(AsnConvert.parse(extension.value, NameConstraints).permittedSubtrees ?? [])].map(
    ({ base }) => base,
  );
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

async function readPair(directory: string, name: string): Promise<Pair | undefined> {
  const [certPath, keyPath] = [join(directory, `${name}.crt`), join(directory, `${name}.key`)];
  if (!existsSync(certPath) || !existsSync(keyPath)) return undefined;
  try {
    const certificate = new x509.X509Certificate(readFileSync(certPath, 'utf8'));
    const der = x509.PemConverter.decodeFirst(readFileSync(keyPath, 'utf8'));
    const privateKey = await webcrypto.subtle.importKey('pkcs8', der, ALGORITHM, true, ['sign']);
    const publicKey = await certificate.publicKey.export(ALGORITHM, ['verify'], webcrypto as Crypto);
    return { certificate, keys: { privateKey, publicKey } as CryptoKeyPair };
  } catch (error) {
    throw new UnusableData(`${certPath} and ${keyPath} cannot be used: ${String(error)}.`, { cause: error });
  }
}

/** The key first: a certificate never stands there without its key. */
async function writePair(directory: string, name: string, { certificate, keys }: Pair): Promise<void> {
  writeFile(join(directory, `${name}.key`), await keyPem(keys.privateKey), 0o600);
  writeFile(join(directory, `${name}.crt`), certificate.toString('pem'), 0o644);
  syncDirectory(directory);
}

function writeFile(path: string, text: string, mode: number): void {
  const handle = openSync(`${path}.new`, 'w', mode);
  try {
    writeSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(`${path}.new`, path);
}

const keyPem = async (key: CryptoKey): Promise<string> =>
  x509.PemConverter.encode(
    await webcrypto.subtle.exportKey('pkcs8', key as webcrypto.CryptoKey),
    'PRIVATE KEY',
  );
