/** What axe finds wrong with a page as it stands. */
import axe from 'axe-core';
import type { Page } from 'playwright';

/**
 * One line for each violation: its id, how bad it is, and the elements. Empty when axe finds none.
 *
 * axe's source is evaluated by the debugger's own channel, which a page's content security policy does not
 * stop, so that the page under test keeps the policy it is served with.
 */
export async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const found = await (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
      resultTypes: ['violations'],
    });
    return found.violations.map(
      (v) => `${v.id} (${v.impact}): ${v.help}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`,
    );
  });
}
