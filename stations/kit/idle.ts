/**
 * A page that nobody has touched for a while goes back to its list, so that the next person finds a list and not another
 * one's skier. It never goes over a draft, an open dialog, or a person who is there.
 */

/** Common practice, no source: longer than a skier's walk to the bench and back takes at its page. */
export const IDLE_MS = 5 * 60_000;
/** How often it is looked at. */
const LOOK_MS = 10_000;

const SIGNS = ['pointerdown', 'pointermove', 'keydown', 'wheel', 'touchstart'] as const;

export interface Idle {
  /** Something is typed and not entered. */
  hasDraft(): boolean;
  onidle(): void;
}

/** Watches this page until the returned function is called. */
export function watchIdle({ hasDraft, onidle }: Idle): () => void {
  let lastMs = Date.now();
  const here = () => (lastMs = Date.now());
  for (const sign of SIGNS) addEventListener(sign, here, { capture: true, passive: true });
  const timer = setInterval(() => {
    if (Date.now() - lastMs < IDLE_MS) return;
    if (document.querySelector('dialog[open]') || hasDraft()) return;
    onidle();
  }, LOOK_MS);
  return () => {
    clearInterval(timer);
    for (const sign of SIGNS) removeEventListener(sign, here, { capture: true });
  };
}
