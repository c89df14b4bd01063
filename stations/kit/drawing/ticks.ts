/** The numbers at the left of a plot. */

export interface Tick {
  /** px from the top of the field. */
  readonly y: number;
  readonly text: string;
  /** Its line is the one that all else is held against. */
  readonly zero: boolean;
}

/** Of a field that shows shares from none to all. */
export const percentTicks = (height: number): Tick[] =>
  [0, 50, 100].map((percent) => ({
    y: height * (1 - percent / 100),
    text: String(percent),
    zero: percent === 0,
  }));
