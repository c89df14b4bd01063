/** Dates that are wrong, as a person meets them in a browser that trusts the shop's authority. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { randomBytes, randomInt } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { serverCertificate } from '../../server/certificates.ts';
import { launchTrusting, TRUST } from '../helpers/trust.ts';
import type { TrustingBrowser } from '../helpers/trust.ts';
import { run } from '../server/helpers/running.ts';
import type { Running } from '../server/helpers/running.ts';

const YEAR = 365 * 86_400_000;
const NAMES = ['127.0.0.1', 'localhost'];

let data: string;
let running: Running | undefined;
let trusting: TrustingBrowser | undefined;
afterEach(async () => {
  await trusting?.close();
  await running?.close();
  running = trusting = undefined;
  rmSync(data, { recursive: true, force: true });
});

/** An authority made three years ago, a certificate made two years ago. */
async function oldCertificates(): Promise<string> {
  data = mkdtempSync(join(tmpdir(), 'fibula-dates-'));
  const tls = join(data, 'tls');
  mkdirSync(tls);
  for (const ago of [3 * YEAR, 2 * YEAR]) {
    const now = () => Date.now() - ago;
    await serverCertificate(tls, NAMES, { now, randomBytes: (count) => randomBytes(count), randomInt });
  }
  return tls;
}

const open = async (): Promise<string> => {
  const page = await (await trusting!.browser.newContext()).newPage();
  try {
    const answer = await page.goto(`https://127.0.0.1:${running!.server.port}/healthz`);
    return String(answer?.status());
  } catch (error) {
    return /ERR_[A-Z_]+/.exec(String(error))?.[0] ?? String(error);
  } finally {
    await page.context().close();
  }
};

// By its key alone a browser is told to overlook dates too.
it.runIf(TRUST === 'store')(
  'a server whose clock stands two years back shows an ended certificate; set right, it is good at once',
  async () => {
    const tls = await oldCertificates();
    running = await run({ plain: false, data });
    running.clock.aheadMs = -2 * YEAR;
    await running.server.look();
    trusting = await launchTrusting(tls);
    expect(await open()).toBe('ERR_CERT_DATE_INVALID');
    running.clock.aheadMs = 0;
    expect(await open()).toBe('200');
  },
);

it('a certificate that ended while the server was off is no matter: it is renewed before anybody sees it', async () => {
  const tls = await oldCertificates();
  running = await run({ plain: false, data });
  trusting = await launchTrusting(tls);
  expect(await open()).toBe('200');
});
