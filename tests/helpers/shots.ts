/**
 * Pictures of what a test has come to, only where `FIBULA_SHOTS` names a folder for them: for a person to look at, and
 * for docs/screens, where `FIBULA_SHOTS_AS=jpeg` keeps them small.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';

export async function shot(page: Page, name: string): Promise<void> {
  const folder = process.env['FIBULA_SHOTS'];
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  const small = process.env['FIBULA_SHOTS_AS'] === 'jpeg';
  await page.screenshot(
    small
      ? { path: join(folder, `${name}.jpg`), type: 'jpeg', quality: 50 }
      : { path: join(folder, `${name}.png`) },
  );
}
