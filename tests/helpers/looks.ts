/** What every page must be: fitting its screens, usable with gloves, and with nothing for axe to say. */
import type { Page } from 'playwright';
import { expect } from 'vitest';
import { axeViolations, COLOUR_RULES } from './axe.ts';
import { brokenHeadings, sidewaysScrolls, smallTargets } from './layout.ts';
import { shot } from './shots.ts';

const TOUCH_PX = 56;

export interface ScreenSize {
  readonly width: number;
  readonly height: number;
}

/** Fits, has targets for gloves, and gives axe nothing to say, light or dark; on the screens in `also` it fits too. */
export async function looksRight(page: Page, name: string, also: readonly ScreenSize[] = []): Promise<void> {
  const fits = async (on: string) => {
    expect(await sidewaysScrolls(page), on).toEqual([]);
    expect(await brokenHeadings(page), on).toEqual([]);
    expect(await smallTargets(page, TOUCH_PX), on).toEqual({ small: [], inline: [] });
  };
  const size = page.viewportSize();
  for (const other of also) {
    await page.setViewportSize(other);
    await fits(`${name} on ${other.width}×${other.height}`);
    await shot(page, `${name}-${other.width}`);
  }
  if (size && also.length > 0) await page.setViewportSize(size);
  await fits(name);
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  await shot(page, name);
  expect(await axeViolations(page), name).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
  expect(await axeViolations(page, COLOUR_RULES), `${name}, dark`).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
}
