/** Words about photos. */
import type { Degenerate, Measured, Payload, Side } from '../../../core/index.ts';
import { Z90 } from '../../../core/index.ts';
import type { GapBy, Group, Scale, SeenFrom } from '../photo/groups.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/photo.ts';

const photoEn = {
  ask: 'Ask the skier first. Only leg and boot, no face. A photo is erased with the client’s data.',
  aid: 'A photo is an aid. It does not replace reading the gap on the boot.',
  plane: 'Hold card or sheet in the plane of what you measure: nearer to the camera looks larger.',
  leg: 'Whose leg',
  shows: 'What it shows',
  showsWord: { leg: 'leg and cuff', gap: 'gap', boot: 'boot' } satisfies Record<
    Payload<'photo.taken'>['shows'],
    string
  >,
  take: (side: Side): string => `Take a photo of the ${side} leg`,
  none: 'No photos of this session yet. Take one with the button above.',
  noneYet: 'No photos of this session yet. They are taken at the measuring station and at the bench.',
  unmarked: 'Nobody has measured in this photo.',
  look: 'Look',
  named: (side: Side, shows: Payload<'photo.taken'>['shows'], number: number): string =>
    `Photo ${number}: ${Sided(side)}, ${photoEn.showsWord[shows]}`,
  waiting: 'waiting: on this device alone',
  stored: 'stored',
  away: 'The picture is not here: it still waits on the tablet that took it, or it was erased.',
  unreadable: 'This file cannot be read as a picture. Take the photo again.',
  noRoom: 'This device has no room for the photo. Free some space, then take it again.',
  measure: 'Measure',
  back: 'All photos',
  takeBack: 'Take this photo back',
  takenBack: 'photo taken back',
  notGone:
    'Taken back, but neither this device nor the server could note that the picture is to go. Tell the desk: it can erase the client’s data.',
  groups: { scale: 'Scale', legAxis: 'Leg axis', cuffAxis: 'Cuff axis', gap: 'Gap' } satisfies Record<
    Group,
    string
  >,
  group: 'Points of',
  scale: 'Scale by',
  scales: {
    card: 'Card 85.6 × 54',
    a4: 'A4 sheet',
    rectangle: 'Other rectangle',
    length: 'Two points',
  } satisfies Record<Scale, string>,
  length: 'Distance of the two points',
  longer: 'Longer side',
  shorter: 'Shorter side',
  gapBy: 'Gap',
  gapsBy: { points: 'Between two points', line: 'Point to a line' } satisfies Record<GapBy, string>,
  from: 'Photographed from',
  froms: { front: 'in front', behind: 'behind' } satisfies Record<SeenFrom, string>,
  hint: 'Drag a point, or move it by the arrow keys, with Shift ten times as far. The loupe shows where it is.',
  /** `of`: how many there are; three are a point and a line. */
  point: (group: Group, index: number, of: number): string =>
    of === 3
      ? `${photoEn.groups[group]}, ${index === 0 ? 'point' : `line, end ${index}`}`
      : `${photoEn.groups[group]}, point ${index + 1}`,
  loupe: 'Loupe',
  x: 'Across',
  y: 'Down',
  angle: 'Cuff against leg',
  gap: 'Gap',
  missing: { angle: 'Place both axes.', gap: 'Place the two ends of the gap.' },
  use: (place: 'medial' | 'lateral'): string => `Use as ${place} gap`,
  useHint: 'goes into the reading, for you to record',
  unsure: 'This is less sure than a gap read on the boot.',
  save: 'Keep these marks',
  kept: 'Marks kept.',
};
export const photo: Words<typeof photoEn> = inLanguage(photoEn, german.photo);

const whyEn: Record<Degenerate, string> = {
  'too-near': 'Two points are too near together.',
  'on-one-line': 'Three corners lie on one line.',
  crossed: 'The corners cross. Go round: one point on each corner.',
  'past-horizon': 'A point does not lie in the plane of the card.',
};
export const why: Words<typeof whyEn> = inLanguage(whyEn, german.why);

/** `12.3 mm ± 0.4 mm`: nine times of ten, from how well points are picked; or why there is none. */
export const measuredText = (measured: Measured<number>, unit: 'mm' | '°'): string => {
  if (!measured.ok) return why[measured.why];
  const space = unit === 'mm' ? ' ' : '';
  return `${shown(measured.value)}${space}${unit} ± ${shown(Math.max(0.1, measured.sd * Z90))}${space}${unit}`;
};

const turnEn = {
  parallel: 'parallel',
  leans: (lean: 'outward' | 'inward', clockwise: boolean): string =>
    `cuff leans ${lean} of the leg (${clockwise ? 'clockwise' : 'anticlockwise'} as seen)`,
};
export const turn: Words<typeof turnEn> = inLanguage(turnEn, german.turn);

/**
 * Which way the cuff leans from the leg. A skier’s right leg stands on the left of a picture that was taken from in front:
 * there clockwise is inward, as it is for the left leg from behind.
 *
 * @param degrees of the picture: clockwise positive
 */
export function turnText(degrees: number, side: Side, from: SeenFrom): string {
  if (Math.abs(degrees) < 0.05) return turn.parallel;
  const clockwise = degrees > 0;
  const clockwiseIsOutward = (side === 'left') === (from === 'front');
  return turn.leans(clockwise === clockwiseIsOutward ? 'outward' : 'inward', clockwise);
}
