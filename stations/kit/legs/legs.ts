/** A client's legs from all their sessions, and what the surest of them asks of another boot. */
import { addedDeg, degAtan, deg, Z90 } from '../../../core/index.ts';
import type { Deg, LegTold, SeenLeg } from '../../../core/index.ts';
import { ask } from '../api.ts';

export const legs = {
  of: (client: string) => ask<{ legs: LegTold[] }>('GET', `/api/people/${encodeURIComponent(client)}/legs`),
};

/** Deviation of a leg's angle as it was read, degrees. */
export const sdDegOf = ({ sdMm, heightMm }: SeenLeg): Deg => degAtan(sdMm / heightMm);

export interface Expected {
  readonly row: LegTold & { readonly leg: SeenLeg };
  /** Deviation in another boot, degrees: what was read, and what is added on the way. */
  readonly sdDeg: Deg;
}

/** The session that leaves the leg surest in another boot; null where none says it. */
export function expected(rows: readonly LegTold[], nowMs: number): Expected | null {
  const known = rows.flatMap((row): Expected[] =>
    row.leg
      ? [
          {
            row: { ...row, leg: row.leg },
            sdDeg: deg(Math.hypot(sdDegOf(row.leg), addedDeg(false, nowMs - row.openedMs))),
          },
        ]
      : [],
  );
  return known.reduce<Expected | null>((best, one) => (best && best.sdDeg <= one.sdDeg ? best : one), null);
}

export interface LegPoint {
  readonly x: number;
  readonly y: number;
  readonly top: number;
  readonly bottom: number;
  readonly row: LegTold & { readonly leg: SeenLeg };
}

/** One column for each session that says something, oldest first; the scale holds upright and every interval. */
export function legsPlot(
  rows: readonly LegTold[],
  width: number,
  height: number,
  left: number,
): {
  readonly points: readonly LegPoint[];
  readonly ticks: readonly { readonly deg: number; readonly y: number }[];
} {
  const known = rows.flatMap((row) => (row.leg ? [{ ...row, leg: row.leg }] : [])).toReversed();
  const ends = known.flatMap(({ leg }) => {
    const half = Z90 * sdDegOf(leg);
    return [leg.line.angleDeg - half, leg.line.angleDeg + half];
  });
  const [low, high] = [Math.min(-0.5, ...ends) - 0.2, Math.max(0.5, ...ends) + 0.2];
  const y = (angle: number): number => height - ((angle - low) / (high - low)) * height;
  const step = [0.5, 1, 2, 5].find((each) => (high - low) / each <= 5) ?? 10;
  const first = Math.ceil(low / step);
  return {
    points: known.map((row, i) => {
      const half = Z90 * sdDegOf(row.leg);
      const { angleDeg } = row.leg.line;
      return {
        x: left + ((i + 0.5) / known.length) * (width - left),
        y: y(angleDeg),
        top: y(angleDeg + half),
        bottom: y(angleDeg - half),
        row,
      };
    }),
    ticks: Array.from({ length: Math.floor(high / step) - first + 1 }, (_, i) => (first + i) * step).map(
      (at) => ({ deg: at, y: y(at) }),
    ),
  };
}
