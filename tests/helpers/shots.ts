/** Pictures for a person to look at, only where `FIBULA_SHOTS` names a folder for them. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';

export async function shot(page: Page, name: string): Promise<void> {
  const folder = process.env['FIBULA_SHOTS'];
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
