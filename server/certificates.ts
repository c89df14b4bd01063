/** The server's certificate under the shop's own authority: read, or made when it is missing, old or wrong. */
import 'reflect-metadata';
import { existsSync, mkdirSync } from 'node:fs';
import { isIP } from 'node:net';
import * as x509 from '@peculiar/x509';
import { authorities, coveredBy, fingerprintOf, prepareNext, switchToNext } from './authority.ts';
import {
  ALGORITHM,
  DAY_MS,
  keyPem,
  madeAt,
  makeKeys,
  readPair,
  serial,
  validity,
  writePair,
} from './key-pair.ts';
import type { Pair } from './key-pair.ts';
import type { Outside } from './outside.ts';
import { troubleOf } from './trouble.ts';

export interface ServerCertificate {
  /** The server's certificate, PEM. */
  readonly cert: string;
  /** Its key, PEM. */
  readonly key: string;
  /** When it was made, becomes valid, is made anew and ends, ms since 1970. */
  readonly madeMs: number;
  readonly beginsMs: number;
  readonly renewMs: number;
  readonly endsMs: number;
  /** The authority's certificate, DER. */
  readonly authority: Uint8Array;
  /** SHA-256 of the authority's certificate, upper-case hexadecimal pairs with colons. */
  readonly fingerprint: string;
  /** When the authority begins and when it ends, ms since 1970. */
  readonly authorityBeginsMs: number;
  readonly authorityEndsMs: number;
  /** An authority that is to follow this one, where one was prepared. */
  readonly next: { readonly authority: Uint8Array; readonly fingerprint: string } | null;
  /** Names and addresses asked for that the authority may not vouch for; they need a new authority. */
  readonly uncovered: readonly string[];
}

/** iPads take at most 825 days, and browsers 398 from public authorities; a year and a month is wise here too. */
const LEAF_DAYS = 397;
const RENEW_DAYS = 30;

/**
 * Reads or makes both certificates in `directory`. The server's is made anew when it lacks one of `names`
 * (DNS names and IP addresses) or ends soon. Throws `UnusableData` when the files there do not fit together.
 *
 * A clock that stands before the authority was made is wrong: what is there is kept, since the stations' clocks
 * know better, and what must be made begins when the last one did.
 *
 * @param more names that a new authority may vouch for besides
 * @param unwritten told when the disk does not take a new certificate, which is then good in memory alone; without
 *   it that throws
 */
export async function serverCertificate(
  directory: string,
  names: readonly string[],
  outside: Outside,
  more: readonly string[] = [],
  unwritten?: (error: unknown) => void,
): Promise<ServerCertificate> {
  if (!existsSync(directory)) mkdirSync(directory, { recursive: true, mode: 0o700 });
  let both = await authorities(directory, [...names, ...more], outside);
  if (both.next && both.now.certificate.notAfter.getTime() <= outside.now()) {
    switchToNext(directory, outside.now());
    both = await authorities(directory, names, outside);
  }
  const { now: authority, next } = both;
  const covered = coveredBy(authority.certificate, names);
  const held = await readPair(directory, 'server');
  const clockIsWrong = outside.now() < authority.certificate.notBefore.getTime();
  const latest = held ? madeAt(held.certificate) : 0;
  const nowMs = clockIsWrong ? Math.max(latest, madeAt(authority.certificate)) : outside.now();
  const isKept = held && (await isGood(held.certificate, authority.certificate, covered, nowMs));
  const leaf = isKept ? held : await makeLeaf(authority, covered, nowMs, outside);
  if (!isKept) await keep(directory, leaf, unwritten);
  return {
    cert: leaf.certificate.toString('pem'),
    key: await keyPem(leaf.keys.privateKey),
    madeMs: madeAt(leaf.certificate),
    beginsMs: leaf.certificate.notBefore.getTime(),
    renewMs: leaf.certificate.notAfter.getTime() - RENEW_DAYS * DAY_MS,
    endsMs: leaf.certificate.notAfter.getTime(),
    ...shown(authority.certificate),
    authorityBeginsMs: authority.certificate.notBefore.getTime(),
    authorityEndsMs: authority.certificate.notAfter.getTime(),
    next: next ? shown(next.certificate) : null,
    uncovered: names.filter((name) => !covered.includes(name)),
  };
}

/** Makes an authority that is to follow; with `switch` it follows at once, and the present one is kept aside. */
export async function renewAuthority(
  directory: string,
  step: 'prepare' | 'switch' | 'renew',
  names: readonly string[],
  outside: Outside,
): Promise<void> {
  if (step !== 'switch') await prepareNext(directory, names, outside);
  if (step !== 'prepare') switchToNext(directory, outside.now());
}

const shown = (certificate: x509.X509Certificate) => ({
  authority: new Uint8Array(certificate.rawData),
  fingerprint: fingerprintOf(certificate),
});

async function keep(directory: string, leaf: Pair, unwritten?: (error: unknown) => void): Promise<void> {
  try {
    await writePair(directory, 'server', leaf);
  } catch (error) {
    if (!unwritten || troubleOf(error) === null) throw error;
    unwritten(error);
  }
}

async function makeLeaf(
  authority: Pair,
  names: readonly string[],
  nowMs: number,
  outside: Outside,
): Promise<Pair> {
  const keys = await makeKeys();
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serial(outside),
    subject: 'CN=Fibula server',
    issuer: authority.certificate.subject,
    ...validity(nowMs, LEAF_DAYS),
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
  return { certificate, keys };
}

async function isGood(
  leaf: x509.X509Certificate,
  authority: x509.X509Certificate,
  names: readonly string[],
  nowMs: number,
): Promise<boolean> {
  const held =
    leaf.getExtension(x509.SubjectAlternativeNameExtension)?.names.items.map(({ value }) => value) ?? [];
  const lasts = leaf.notAfter.getTime() - nowMs > RENEW_DAYS * DAY_MS;
  return (
    lasts &&
    leaf.notBefore.getTime() <= nowMs &&
    names.every((name) => held.includes(name)) &&
    (await leaf.verify({ publicKey: authority, signatureOnly: true }))
  );
}
