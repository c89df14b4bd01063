/** Words of a client's legs over time, and of what they ask of a new boot. */
import type { KnownLeg, Side } from '../../../core/index.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import { shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/legs.ts';

const legsEn = {
  open: 'Legs over time',
  title: 'Legs over time',
  hint: 'earlier boots, what to expect in another one',
  none: 'No cuff of this client was read in another session, or their data were erased.',
  noneOf: (side: Side): string => `Nothing is known of the ${side} leg from another session.`,
  leg: (side: Side): string => `${Sided(side)} leg`,
  here: 'this session',
  plot: (side: Side): string => `${Sided(side)} leg: its lean in degrees, outward upward, session by session`,
  interval: '9 times of 10 within the line, for the way they stood that day',
  point: (when: string, model: string, angle: number, within: number): string =>
    `${when}, ${model}: ${signed(angle)}° ± ${shown(within)}°`,
  read: (lean: string, within: number): string => `${lean} (± ${shown(within)}°)`,
  unread: 'no reading that says where the leg stands',
  ticket: (ticket: string): string => `Ticket ${ticket}`,
  columns: { when: 'When', boot: 'Boot', leg: 'Leg’s line' },
  through: {
    centre: 'line taken through the middle of the pivots',
    'two-heights': 'read at two heights',
    'known-leg': 'line known from before',
  } as Readonly<Record<KnownLeg['through'], string>>,
  expect: (lean: string, within: number): string =>
    `In another boot expect about ${lean} (± ${shown(within)}°), from the session that leaves it surest.`,
  begins: (side: Side, model: string, lean: string, within: number): string =>
    `${Sided(side)} ${model}: expect the cuff even at about ${lean} (± ${shown(within)}°), before anything is read.`,
  beginsHint:
    'Carried over by the server when the boot was described. It is weighed with the readings and takes the place of none.',
  reach: 'Models that reach it',
  reachNone: 'No model of the catalogue has a factory lean: none can be compared.',
  only: 'This is said of the cuff alone. Length, width, instep and flex are tried on at the foot.',
  changed:
    'Ask what has changed since: an injury, an operation, pain or a new difference goes to a clinician first.',
  sources:
    '0.7° is added for standing again (Tse et al. 2021), 1° for another boot and 0.5° for the root of each year (both from memory, no source).',
  unreachable: 'The shop’s server does not answer.',
};
export const legsWords: Words<typeof legsEn> = inLanguage(legsEn, german.legsWords);

/** `12 Mar 2026`. */
export const dayText = (ms: number): string =>
  new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric' }).format(new Date(ms));
