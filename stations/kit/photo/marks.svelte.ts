/** Points that somebody places in a photo, and what can be read off them. */
import { angleBetween, footOn, gapOfPoints, gapToLine, inOrder, mm, rectangle } from '../../../core/index.ts';
import type {
  Calibration,
  Corners,
  Deg,
  FactOf,
  Line,
  Measured,
  Mm,
  Point,
  Side,
} from '../../../core/index.ts';
import { parseNumber } from '../numbers.ts';
import type { FactDraft } from '../session.ts';
import type { GapBy, Group, Scale } from './groups.ts';

/** ISO/IEC 7810 ID-1, the size of most cards, and ISO 216 A4; the longer side first, in millimetres. */
const KNOWN = { card: [85.6, 53.98], a4: [297, 210] } as const;
/** As the record takes them, in millimetres. */
export const BOUNDS = { length: [1, 2000], side: [5, 2000] } as const;

type Photo = FactOf<'photo.taken'>;
export type MarksDraft = Extract<FactDraft, { kind: 'photo.marked' }>;

/** Where a gap that was read off a photo may go: into a reading that a person records. */
export interface TakesGaps {
  /** Nothing more is read of this leg's cuff. */
  closed(side: Side): boolean;
  takeGap(
    marked: MarksDraft,
    place: 'medial' | 'lateral',
    gap: { readonly value: number; readonly sd: Mm },
  ): boolean;
}

const within = (text: string, [least, most]: readonly [number, number]): Mm | null => {
  const value = parseNumber(text);
  return value === null || value < least || value > most ? null : mm(value);
};

export class Marks {
  readonly #photo: Photo;
  scale = $state<Scale>('card');
  lengthMm = $state('100');
  widthMm = $state('100');
  heightMm = $state('50');
  /** Between two points, or from the first one square to the line through the other two. */
  gapBy = $state<GapBy>('points');
  #groups = $state<Partial<Record<Group, readonly Point[]>>>({});

  /** Begins with the marks that were kept last, if there are such. */
  constructor(photo: Photo, kept: FactOf<'photo.marked'> | undefined) {
    this.#photo = photo;
    const { length, rectangle: found, legAxis, cuffAxis, gap } = kept ?? {};
    const groups = { scale: found?.points ?? length?.points, legAxis, cuffAxis, gap };
    this.#groups = Object.fromEntries(Object.entries(groups).filter(([, points]) => points !== undefined));
    if (found) {
      const sides = [found.widthMm, found.heightMm].sort((a, b) => b - a);
      const known = (['card', 'a4'] as const).find((each) => KNOWN[each].every((one, i) => one === sides[i]));
      this.scale = known ?? 'rectangle';
      [this.widthMm, this.heightMm] = [String(found.widthMm), String(found.heightMm)];
    } else if (length) {
      this.scale = 'length';
      this.lengthMm = String(length.mm);
    }
  }

  points(group: Group): readonly Point[] {
    return this.#groups[group] ?? [];
  }

  /** What is drawn as one figure: of a gap to a line, the line. */
  outline(group: Group): readonly Point[] {
    const points = this.points(group);
    return points.length === 3 ? points.slice(1) : points;
  }

  /** Puts the points of a group where they can be taken hold of, unless they stand somewhere already. */
  place(group: Group): void {
    const wanted = group === 'scale' ? (this.scale === 'length' ? 2 : 4) : this.#gapPoints(group);
    const there = this.points(group);
    if (there.length === wanted) return;
    const { widthPx: w, heightPx: h } = this.#photo;
    const at = (x: number, y: number): Point => ({ x: Math.round(x * w), y: Math.round(y * h) });
    const starts: Record<Group, readonly Point[]> = {
      scale:
        wanted === 4
          ? [at(0.3, 0.4), at(0.7, 0.4), at(0.7, 0.7), at(0.3, 0.7)]
          : [at(0.3, 0.8), at(0.7, 0.8)],
      legAxis: [at(0.4, 0.85), at(0.4, 0.15)],
      cuffAxis: [at(0.6, 0.85), at(0.6, 0.15)],
      gap: wanted === 3 ? [at(0.4, 0.5), at(0.6, 0.7), at(0.6, 0.3)] : [at(0.4, 0.5), at(0.6, 0.5)],
    };
    // The end on the leg stays where it was put.
    this.#groups[group] = group === 'gap' && there[0] ? [there[0], ...starts.gap.slice(1)] : starts[group];
  }

  #gapPoints(group: Group): number {
    return group === 'gap' && this.gapBy === 'line' ? 3 : 2;
  }

  move(group: Group, index: number, to: Point): void {
    const { widthPx, heightPx } = this.#photo;
    const inside = {
      x: Math.min(widthPx, Math.max(0, to.x)),
      y: Math.min(heightPx, Math.max(0, to.y)),
    };
    this.#groups[group] = this.points(group).map((point, i) => (i === index ? inside : point));
  }

  get calibration(): Calibration | null {
    const points = this.points('scale');
    if (this.scale === 'length') {
      const lengthMm = within(this.lengthMm, BOUNDS.length);
      if (points.length !== 2 || lengthMm === null) return null;
      return { by: 'length', points: points as unknown as Line, lengthMm };
    }
    const sides =
      this.scale === 'rectangle'
        ? [within(this.widthMm, BOUNDS.side), within(this.heightMm, BOUNDS.side)]
        : KNOWN[this.scale].map(mm);
    const [one, other] = sides;
    if (points.length !== 4 || !one || !other) return null;
    return rectangle(inOrder(points as unknown as Corners), one, other);
  }

  get angle(): Measured<Deg> | null {
    const [leg, cuff] = [this.points('legAxis'), this.points('cuffAxis')];
    if (!this.calibration || leg.length !== 2 || cuff.length !== 2) return null;
    return angleBetween(this.calibration, leg as unknown as Line, cuff as unknown as Line);
  }

  get gap(): Measured<Mm> | null {
    const { calibration } = this;
    const [from, to, end] = this.points('gap');
    if (!calibration || !from || !to) return null;
    if (!end) return gapOfPoints(calibration, from, to);
    const gap = gapToLine(calibration, from, [to, end]);
    return gap.ok && !this.square ? null : gap;
  }

  /** From the point to the line, where the gap is taken so; null where it would end outside the picture. */
  get square(): Line | null {
    const { calibration } = this;
    const [from, to, end] = this.points('gap');
    const foot = calibration && from && to && end ? footOn(calibration, from, [to, end]) : null;
    const { widthPx, heightPx } = this.#photo;
    const isInside = foot && foot.x >= 0 && foot.y >= 0 && foot.x <= widthPx && foot.y <= heightPx;
    return isInside ? [from!, foot] : null;
  }

  /** The entry that keeps them; null without a scale. */
  get draft(): MarksDraft | null {
    const { calibration, square } = this;
    if (!calibration) return null;
    const list = (points: readonly Point[]) => points.map(({ x, y }) => ({ x, y }));
    const scale =
      calibration.by === 'length'
        ? { length: { points: list(calibration.points), mm: calibration.lengthMm } }
        : {
            rectangle: {
              points: list(calibration.points),
              widthMm: calibration.widthMm,
              heightMm: calibration.heightMm,
            },
          };
    const ends = (group: 'legAxis' | 'cuffAxis' | 'gap') =>
      group === 'gap' && square ? square : this.points(group);
    const placed = (['legAxis', 'cuffAxis', 'gap'] as const).filter((group) => ends(group).length === 2);
    return {
      kind: 'photo.marked',
      side: this.#photo.side,
      photo: this.#photo.id,
      ...scale,
      ...Object.fromEntries(placed.map((group) => [group, list(ends(group))])),
    };
  }
}
