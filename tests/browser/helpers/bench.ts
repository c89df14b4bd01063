/** Jobs before a bench, and what its pages must be. */
import type { Locator, Page } from 'playwright';
import { expect } from 'vitest';
import type { Side } from '../../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../../helpers/axe.ts';
import type { Story } from '../../helpers/facts.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../../helpers/layout.ts';
import { shot } from '../../helpers/shots.ts';

/** The same story, with tags on its boots. */
export function tagged(told: Story, tags: Partial<Record<Side, string>>): Story {
  for (const fact of told.facts)
    if (fact.kind === 'boot.described' && tags[fact.side] !== undefined)
      Object.assign(fact, { tag: tags[fact.side] });
  return told;
}

const SCREENS = [
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
  { width: 1280, height: 800 },
] as const;

/** At each size nothing runs out and each target is large; in light and dark axe is content; the act is in sight and large. */
export async function sound(page: Page, name: string, act?: Locator): Promise<void> {
  for (const size of SCREENS) {
    await page.setViewportSize(size);
    const at = `${name} at ${size.width}×${size.height}`;
    expect(await sidewaysScrolls(page), at).toEqual([]);
    expect(await smallTargets(page, 56), at).toEqual({ small: [], inline: [] });
    if (size.width === 1024) await shot(page, `${name}-1024`);
  }
  if (act) {
    const seen = await inSight(act);
    expect(seen, name).toHaveProperty('heightPx');
    expect((seen as { heightPx: number }).heightPx, name).toBeGreaterThanOrEqual(111.5);
  }
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  await shot(page, name);
  expect(await axeViolations(page), name).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
  await shot(page, `${name}-dark`);
  expect(await axeViolations(page, COLOUR_RULES), `${name}, dark`).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
}
