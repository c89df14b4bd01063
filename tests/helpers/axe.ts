/** What axe finds wrong with a page as it stands. */
import axe from 'axe-core';
import type { Page } from 'playwright';

/**
 * One line for each violation: its id, how bad it is, and the elements. Empty when axe finds none. Beside what axe
 * looks at by itself (WCAG 2.2 A and AA, and its best practices) it looks at the sizes of targets, and asks for the
 * contrast of level AAA, 7:1 for text.
 *
 * `only` names the rules to look at; all where it is left out.
 *
 * axe's source is evaluated by the debugger's own channel, which a page's content security policy does not
 * stop, so that the page under test keeps the policy it is served with.
 */
export async function axeViolations(page: Page, only?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source);
  return page.evaluate(async (rules) => {
    const found = await (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
      ...(rules ? { runOnly: [...rules] } : {}),
      resultTypes: ['violations'],
      rules: { 'color-contrast-enhanced': { enabled: true }, 'target-size': { enabled: true } },
    });
    return found.violations.map(
      (v) => `${v.id} (${v.impact}): ${v.help}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`,
    );
  }, only);
}

/** The rules that depend on the colours alone. */
export const COLOUR_RULES = ['color-contrast', 'color-contrast-enhanced', 'link-in-text-block'];
