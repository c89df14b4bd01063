/**
 * A cuff and the leg in it from above, toe up, in millimetres: x to the viewer's right, y down, the cuff's middle at the
 * origin. Across it is to scale from the reading; how long a cuff is from shin to calf nobody enters, and it is assumed.
 */
import type { FactOf, Side } from '../../../core/index.ts';
import { FORM } from './geometry.ts';
import type { Point } from './geometry.ts';
import { medialIsRight } from './sole.ts';

/** From the inside of the cuff at the shin to its inside at the calf. */
const LENGTH = 150;
/** What is left at shin or calf where nobody read it. */
const UNREAD = 12;
const ASSUMED_SPACING = 86;
const CORNER = 34;

export interface SectionShape {
  /** Half the inside of the cuff across, and along. */
  readonly cuff: { readonly half: number; readonly halfLength: number; readonly corner: number };
  readonly leg: readonly Point[];
  /** Where the leg is widest, and there from leg to wall at each side. */
  readonly widestY: number;
  readonly gaps: Readonly<Record<'medial' | 'lateral', { readonly leg: number; readonly wall: number }>>;
  /** Front and back of the leg. */
  readonly shinY: number;
  readonly calfY: number;
}

type Read = Pick<FactOf<'cuff.read'>, 'medialMm' | 'lateralMm' | 'widestAt' | 'shinMm' | 'calfMm'>;

export function sectionShape(side: Side, read: Read, pivotSpacingMm: number | undefined): SectionShape {
  const medial = medialIsRight(side) ? 1 : -1;
  const half = (pivotSpacingMm ?? ASSUMED_SPACING) / 2 + FORM.cuffFlare;
  const halfLength = LENGTH / 2;
  const shinY = -halfLength + (read.shinMm ?? UNREAD);
  const calfY = halfLength - (read.calfMm ?? UNREAD);
  const share = { front: 0.3, middle: 0.5, rear: 0.7 }[read.widestAt];
  const widestY = shinY + share * (calfY - shinY);
  const legHalf = half - (read.medialMm + read.lateralMm) / 2;
  // A wider medial gap puts the leg lateral of the cuff's middle.
  const centre = (-medial * (read.medialMm - read.lateralMm)) / 2;
  const leg: Point[] = [];
  for (let i = 0; i < 48; i++) {
    const angle = (i / 48) * 2 * Math.PI;
    const [across, along] = [Math.sin(angle), -Math.cos(angle)];
    leg.push({
      x: centre + legHalf * across,
      y: widestY + along * (along < 0 ? widestY - shinY : calfY - widestY),
    });
  }
  const gap = (way: 1 | -1) => ({ leg: centre + way * legHalf, wall: way * half });
  return {
    cuff: { half, halfLength, corner: CORNER },
    leg,
    widestY,
    gaps: { medial: gap(medial), lateral: gap(medial === 1 ? -1 : 1) },
    shinY,
    calfY,
  };
}
