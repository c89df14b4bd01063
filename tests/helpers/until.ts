/**
 * Wait for a condition, with a limit: a test ends on what it waits for, never on a guess at how long that takes.
 *
 * `condition` may answer anything; the first answer that is not undefined, null or false is returned. A throw
 * counts as "not yet". After `limitMs` milliseconds it throws, naming `what` and the last answer or error.
 */
export async function until<T>(
  condition: () => T | Promise<T>,
  what = 'the condition',
  limitMs = 15_000,
): Promise<Exclude<T, undefined | null | false>> {
  const end = performance.now() + limitMs;
  let last: unknown;
  for (;;) {
    try {
      const answer = await condition();
      if (answer !== undefined && answer !== null && answer !== false)
        return answer as Exclude<T, undefined | null | false>;
      last = answer;
    } catch (error) {
      last = error;
    }
    if (performance.now() > end)
      throw new Error(
        `waited ${limitMs} ms for ${what}; last: ${last instanceof Error ? last.message : String(last)}`,
      );
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
