/** A browser on a device of its own, which trusts one certificate authority more than others do. */
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash, X509Certificate } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { launchBrowser } from './browser.ts';

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

/** `certificates` holds the server's `ca.crt` and `server.crt`. */
export async function launchTrusting(certificates: string): Promise<TrustingBrowser> {
  const home = mkdtempSync(join(tmpdir(), 'fibula-home-'));
  const launch = () => {
    if (TRUST === 'key') {
      const { publicKey } = new X509Certificate(readFileSync(join(certificates, 'server.crt')));
      const spki = publicKey.export({ type: 'spki', format: 'der' });
      const pin = createHash('sha256').update(spki).digest('base64');
      return launchBrowser({ args: [`--ignore-certificate-errors-spki-list=${pin}`] });
    }
    const store = `sql:${join(home, '.pki', 'nssdb')}`;
    mkdirSync(join(home, '.pki', 'nssdb'), { recursive: true });
    execFileSync('certutil', ['-N', '--empty-password', '-d', store]);
    const authority = join(certificates, 'ca.crt');
    execFileSync('certutil', ['-A', '-d', store, '-n', 'workshop', '-t', 'C,,', '-i', authority]);
    return launchBrowser({ env: { ...process.env, HOME: home } });
  };
  const browser = await launch();
  return {
    browser,
    close: async () => {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    },
  };
}
