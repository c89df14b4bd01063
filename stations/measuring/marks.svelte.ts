/** Points that somebody places in a photo, and what can be read off them. */
import { angleBetween, gapOfPoints, inOrder, rectangle } from '../../core/index.ts';
import type { Calibration, Corners, Deg, FactOf, Line, Measured, Mm, Point } from '../../core/index.ts';
import { mm } from '../../core/index.ts';
import { parseNumber } from '../kit/numbers.ts';
import type { FactDraft } from '../kit/session.ts';
import type { Group, Scale } from '../kit/words/photo.ts';

/** ISO/IEC 7810 ID-1, the size of most cards, and ISO 216 A4; the longer side first, in millimetres. */
const KNOWN = { card: [85.6, 53.98], a4: [297, 210] } as const;

type Photo = FactOf<'photo.taken'>;

export class Marks {
  readonly #photo: Photo;
  scale = $state<Scale>('card');
  lengthMm = $state('100');
  #groups = $state<Partial<Record<Group, readonly Point[]>>>({});

  /** Begins with the marks that were kept last, if there are such. */
  constructor(photo: Photo, kept: FactOf<'photo.marked'> | undefined) {
    this.#photo = photo;
    const { length, rectangle: found, legAxis, cuffAxis, gap } = kept ?? {};
    const groups = { scale: found?.points ?? length?.points, legAxis, cuffAxis, gap };
    this.#groups = Object.fromEntries(Object.entries(groups).filter(([, points]) => points !== undefined));
    if (length && !found) this.lengthMm = String(length.mm);
    if (found) this.scale = Math.max(found.widthMm, found.heightMm) > 200 ? 'a4' : 'card';
    else if (length) this.scale = 'length';
  }

  points(group: Group): readonly Point[] {
    return this.#groups[group] ?? [];
  }

  /** Puts the points of a group where they can be taken hold of, unless they stand somewhere already. */
  place(group: Group): void {
    const wanted = group === 'scale' && this.scale !== 'length' ? 4 : 2;
    if (this.points(group).length === wanted) return;
    const { widthPx: w, heightPx: h } = this.#photo;
    const at = (x: number, y: number): Point => ({ x: Math.round(x * w), y: Math.round(y * h) });
    const starts: Record<Group, readonly Point[]> = {
      scale:
        wanted === 4
          ? [at(0.3, 0.4), at(0.7, 0.4), at(0.7, 0.7), at(0.3, 0.7)]
          : [at(0.3, 0.8), at(0.7, 0.8)],
      legAxis: [at(0.4, 0.85), at(0.4, 0.15)],
      cuffAxis: [at(0.6, 0.85), at(0.6, 0.15)],
      gap: [at(0.4, 0.5), at(0.6, 0.5)],
    };
    this.#groups[group] = starts[group];
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
      const length = parseNumber(this.lengthMm);
      if (points.length !== 2 || length === null || length < 1 || length > 2000) return null;
      return { by: 'length', points: points as unknown as Line, lengthMm: mm(length) };
    }
    const [long, short] = KNOWN[this.scale];
    return points.length === 4 ? rectangle(inOrder(points as unknown as Corners), mm(long), mm(short)) : null;
  }

  get angle(): Measured<Deg> | null {
    const [leg, cuff] = [this.points('legAxis'), this.points('cuffAxis')];
    if (!this.calibration || leg.length !== 2 || cuff.length !== 2) return null;
    return angleBetween(this.calibration, leg as unknown as Line, cuff as unknown as Line);
  }

  get gap(): Measured<Mm> | null {
    const [from, to] = this.points('gap');
    return this.calibration && from && to ? gapOfPoints(this.calibration, from, to) : null;
  }

  /** The entry that keeps them; null without a scale. */
  get draft(): Extract<FactDraft, { kind: 'photo.marked' }> | null {
    const { calibration } = this;
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
    const placed = (['legAxis', 'cuffAxis', 'gap'] as const).filter(
      (group) => this.points(group).length === 2,
    );
    return {
      kind: 'photo.marked',
      side: this.#photo.side,
      photo: this.#photo.id,
      ...scale,
      ...Object.fromEntries(placed.map((group) => [group, list(this.points(group))])),
    };
  }
}
