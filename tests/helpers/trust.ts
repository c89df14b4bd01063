/** A browser on a device of its own, which trusts one certificate authority more than others do. */
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash, X509Certificate } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext } from 'playwright';
import { launchBrowser, launchProfile } from './browser.ts';
import type { Device } from './browser.ts';

/**
 * How the authority is trusted: `store` as a person would, in the device's own store, which needs the program
 * certutil (Debian: libnss3-tools); `key` where that is missing, by the server's very key on the browser's command
 * line, which says nothing about the chain.
 */
export const TRUST: 'store' | 'key' = spawnSync('certutil', ['--help']).error ? 'key' : 'store';

export interface TrustingBrowser {
  readonly browser: Browser;
  close(): Promise<void>;
}

/** A device of one person: what its browser keeps outlives the browser. */
export interface TrustingDevice {
  /** Starts the browser's process; one at a time. */
  open(): Promise<BrowserContext>;
  /** Throws away what the device has kept. */
  remove(): void;
}

/** `certificates` holds the server's `ca.crt` and `server.crt`. */
function trustedBy(home: string, certificates: string): Device {
  if (TRUST === 'key') {
    const { publicKey } = new X509Certificate(readFileSync(join(certificates, 'server.crt')));
    const spki = publicKey.export({ type: 'spki', format: 'der' });
    const pin = createHash('sha256').update(spki).digest('base64');
    return { args: [`--ignore-certificate-errors-spki-list=${pin}`] };
  }
  const store = `sql:${join(home, '.pki', 'nssdb')}`;
  mkdirSync(join(home, '.pki', 'nssdb'), { recursive: true });
  execFileSync('certutil', ['-N', '--empty-password', '-d', store]);
  const authority = join(certificates, 'ca.crt');
  execFileSync('certutil', ['-A', '-d', store, '-n', 'workshop', '-t', 'C,,', '-i', authority]);
  return { env: { ...process.env, HOME: home } };
}

export async function launchTrusting(certificates: string): Promise<TrustingBrowser> {
  const home = mkdtempSync(join(tmpdir(), 'fibula-home-'));
  const browser = await launchBrowser(trustedBy(home, certificates));
  return {
    browser,
    close: async () => {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    },
  };
}

export function trustingDevice(certificates: string): TrustingDevice {
  const home = mkdtempSync(join(tmpdir(), 'fibula-home-'));
  const device = trustedBy(home, certificates);
  return {
    open: () => launchProfile(join(home, 'profile'), device),
    remove: () => rmSync(home, { recursive: true, force: true }),
  };
}
