/**
 * What was touched is seen to be touched first; what takes long to draw waits for that picture. All that waits for one
 * picture is done in one go, so that it is drawn once.
 */
let waiting: (() => void)[] = [];

function doAll(): void {
  const due = waiting;
  waiting = [];
  for (const each of due)
    try {
      each();
    } catch (error) {
      // One that fails is told like any fault of the page, and keeps no other from being done.
      reportError(error);
    }
}

export function afterPaint(what: () => void): void {
  // A page that nobody sees is given no picture, and a test without a browser has none.
  if (typeof requestAnimationFrame === 'undefined' || document.hidden) return what();
  waiting.push(what);
  if (waiting.length === 1) requestAnimationFrame(() => setTimeout(doAll));
}
