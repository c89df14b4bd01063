/** A certificate and its key, made and kept as two files beside each other. */
import 'reflect-metadata';
import { createPrivateKey, createPublicKey, webcrypto } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, readFileSync, renameSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import * as x509 from '@peculiar/x509';
import type { Outside } from './outside.ts';
import { syncDirectory, UnusableData } from './schema.ts';

export interface Pair {
  readonly certificate: x509.X509Certificate;
  readonly keys: CryptoKeyPair;
}

export const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
export const DAY_MS = 86_400_000;
/** A clock that is a little behind must not find the certificate too young. */
const BACKDATE_MS = DAY_MS;

x509.cryptoProvider.set(webcrypto as Crypto);

export const makeKeys = async () =>
  (await webcrypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify'])) as CryptoKeyPair;

/** Positive and unpredictable, 16 bytes. */
export const serial = ({ randomBytes }: Outside): string =>
  `01${Buffer.from(randomBytes(15)).toString('hex')}`;

/** From a day before `fromMs` (ms since 1970), for `days`. */
export const validity = (fromMs: number, days: number) => ({
  notBefore: new Date(fromMs - BACKDATE_MS),
  notAfter: new Date(fromMs - BACKDATE_MS + days * DAY_MS),
});

/** When the certificate was made, ms since 1970. */
export const madeAt = (certificate: x509.X509Certificate): number =>
  certificate.notBefore.getTime() + BACKDATE_MS;

/** Undefined where one of the two files is missing. Throws `UnusableData` where they do not fit together. */
export async function readPair(directory: string, name: string): Promise<Pair | undefined> {
  const [certPath, keyPath] = [join(directory, `${name}.crt`), join(directory, `${name}.key`)];
  if (!existsSync(certPath) || !existsSync(keyPath)) return undefined;
  try {
    const certificate = new x509.X509Certificate(readFileSync(certPath, 'utf8'));
    const pem = readFileSync(keyPath, 'utf8');
    const held = createPublicKey(createPrivateKey(pem)).export({ type: 'spki', format: 'der' });
    if (!held.equals(Buffer.from(certificate.publicKey.rawData)))
      throw new Error('the key is not the certificate’s');
    const der = x509.PemConverter.decodeFirst(pem);
    const privateKey = await webcrypto.subtle.importKey('pkcs8', der, ALGORITHM, true, ['sign']);
    const publicKey = await certificate.publicKey.export(ALGORITHM, ['verify'], webcrypto as Crypto);
    return { certificate, keys: { privateKey, publicKey } as CryptoKeyPair };
  } catch (error) {
    throw new UnusableData(`${certPath} and ${keyPath} cannot be used: ${String(error)}.`, { cause: error });
  }
}

/**
 * Both are written before either gets its name: on a full disk neither does. Then the key first: a certificate never
 * stands there without its key.
 */
export async function writePair(directory: string, name: string, { certificate, keys }: Pair): Promise<void> {
  const [key, cert] = [join(directory, `${name}.key`), join(directory, `${name}.crt`)];
  writeNew(key, await keyPem(keys.privateKey), 0o600);
  writeNew(cert, certificate.toString('pem'), 0o644);
  for (const path of [key, cert]) renameSync(`${path}.new`, path);
  syncDirectory(directory);
}

export const keyPem = async (key: CryptoKey): Promise<string> =>
  x509.PemConverter.encode(
    await webcrypto.subtle.exportKey('pkcs8', key as webcrypto.CryptoKey),
    'PRIVATE KEY',
  );

function writeNew(path: string, text: string, mode: number): void {
  const handle = openSync(`${path}.new`, 'w', mode);
  try {
    writeSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
