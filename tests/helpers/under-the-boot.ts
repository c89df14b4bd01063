/** Knees and soles, as people enter them at their pages. */
import type { Locator, Page } from 'playwright';
import type { Side } from '../../core/index.ts';
import { button, capital, choose, field } from './floor.ts';

export interface Knee {
  readonly offset: string;
  readonly toward: 'medial' | 'lateral';
  readonly height?: string;
}

export const kneePanel = (measuring: Page, side: Side): Locator =>
  measuring.getByRole('region', { name: `${capital(side)} knee` });

/** One reading after standing afresh. */
export async function readKnee(measuring: Page, side: Side, { offset, toward, height }: Knee): Promise<void> {
  const leg = kneePanel(measuring, side);
  await field(leg, 'Knee from the line').fill(offset);
  await choose(leg, 'Toward', toward);
  if (height) await field(leg, 'Knee height').fill(height);
  await button(leg, /^.*Stood afresh: no$/).click();
  await button(leg, new RegExp(`^Record the ${side} knee`)).click();
}

/** Heights and widths of a sole by the labels of their fields, as they are typed. */
export const SOLE = {
  'Toe, medial height': '19,2',
  'Toe, lateral height': '19.2',
  'Toe, width': '69',
  'Heel, medial height': '30,1',
  'Heel, lateral height': '30.1',
  'Heel, width': '69',
};
export async function typeSole(bench: Page, values: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, value] of Object.entries(values)) await field(bench, label).fill(value);
}
