/** The turn from what is to what is recommended, as style: `turning.css` lets the eye follow it once. */
import type { Tip } from './geometry.ts';

/** Begins turned back by the whole tip, about its middle in the drawing's own units. */
export const turning = ({ about, deg }: Tip): string =>
  `--from: ${-deg}deg; transform-origin: ${about.x}px ${about.y}px`;
