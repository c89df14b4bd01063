/**
 * What each kind of entry rests on: the one table behind the basis of a new entry, behind what makes an old one stale,
 * and behind the graph in docs/staleness.md.
 *
 * Every slot listed is named in the basis. How it holds the entry says what happens when something is entered there
 * afterwards.
 */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Kind } from './kinds.ts';
import { slot } from './slots.ts';

export type Hold =
  /** Its own slot: the entry supersedes what stands there. */
  | 'own'
  /** Taken as its author knew it; a later entry there changes nothing. */
  | 'known'
  /** Taken as its author knew it; once that record is struck with nothing in its place, the entry counts no more. */
  | 'record'
  /** Another value there makes the entry stale; put back, it is current again. */
  | 'value'
  /** The slot gathers entries: one more, or one taken away, makes the entry stale. */
  | 'members'
  /** Judged with the entries there: stale once those it was made from are, or count no more. */
  | 'through';

/** Which boot, and which of its things, an entry speaks of. */
export interface Place {
  readonly side: Side;
  readonly item: string;
  readonly adjuster: string;
  readonly when: string;
}

export interface Edge {
  readonly hold: Hold;
  /** Slots of this edge; a trailing `/` takes in everything below. */
  readonly on: (place: Place) => readonly string[];
}

const edge = (hold: Hold, ...on: ((place: Place) => string | readonly string[])[]): Edge => ({
  hold,
  on: (place) => on.flatMap((of) => of(place)),
});

const boot = ({ side }: Place) => slot.boot(side);
const reworked = ({ side }: Place) => slot.reworked(side, '');
const readied = ({ side }: Place) => slot.ready(side, '');
const item =
  (name: string) =>
  ({ side }: Place) =>
    slot.ready(side, name);
const inside = ({ side }: Place) => slot.inside(side, '');
const shell = ({ side }: Place) => slot.shell(side);
const sole = ({ side }: Place) => slot.sole(side);
const pivots = ({ side }: Place) => slot.pivots(side);
const read = ({ side }: Place) => slot.read(side);
const closed = ({ side }: Place) => slot.closed(side);
const stance = ({ side }: Place) => slot.stance(side);
const cant = ({ side }: Place) => slot.cant(side);
const plate = ({ side }: Place) => slot.plate(side);
const before = ({ side }: Place) => slot.measured(side, 'before');
const of = (name: string) => () => name;

/** Of the pair, since a knee stands over both boots. */
const both = (name: (side: Side) => string) => () => SIDES.map(name);

/** One entry for the pair, and nothing below it. */
const alone = (name: string): readonly Edge[] => [edge('own', of(name))];
/** What a leg is read through: another footbed, shell or inside is another leg. */
const THROUGH_BOOT = [edge('value', item('footbed'), item('shell'), inside), edge('members', shell)];

export const RESTS: Readonly<Record<Kind, readonly Edge[]>> = {
  'session.opened': [],
  struck: [],
  'photo.taken': [],
  'photo.marked': [],
  'service.changed': alone('service'),
  'settings.used': [edge('own', () => slot.setting(''))],
  assessed: [edge('own', ({ side }) => slot.assessed(side, ''))],
  'inside.set': [edge('own', inside)],
  'leg.known': [edge('own', ({ side }) => slot.leg(side))],
  'response.known': [edge('own', ({ side }) => slot.response(side))],
  'boot.described': [edge('own', boot)],
  'pivot.reworked': [
    edge('known', of('work.agreed'), boot, pivots, closed),
    edge('own', ({ side, adjuster }) => slot.reworked(side, adjuster)),
  ],
  'ready.checked': [
    edge('own', ({ side, item: name }) => slot.ready(side, name)),
    // Brought to neutral, or to flat: that sets the pivots, or the sole, as well.
    edge('own', (place) => (place.item === 'cuff-neutral' ? [pivots(place)] : [])),
    edge('own', (place) => (place.item === 'sole-flat' ? [sole(place)] : [])),
  ],
  'shell.worked': [edge('known', of('work.agreed')), edge('own', shell)],
  'sole.set': [edge('own', sole)],
  'cuff.set': [edge('known', boot, reworked, read), edge('own', pivots)],
  'cuff.read': [
    ...THROUGH_BOOT,
    edge('record', item('cuff-neutral'), sole, pivots),
    edge('known', boot, reworked, readied),
    edge('own', read),
  ],
  'cuff.closed': [
    edge('value', pivots, reworked),
    edge('through', read),
    edge('known', boot, readied, inside, shell, sole),
    edge('own', closed),
  ],
  'stance.read': [
    ...THROUGH_BOOT,
    edge('value', both(slot.pivots)),
    edge('record', both(slot.closed), sole),
    edge('known', readied),
    edge('own', stance),
  ],
  'cant.chosen': [edge('through', stance), edge('own', cant)],
  'plate.fitted': [edge('known', of('work.agreed'), cant, before), edge('own', plate, sole)],
  'sole.measured': [edge('value', plate, sole), edge('own', ({ side, when }) => slot.measured(side, when))],
  'foreaft.read': [
    edge('value', inside),
    edge('known', plate),
    edge('own', ({ side }) => slot.foreAft(side)),
  ],
  'work.agreed': alone('work.agreed'),
  'health.asked': alone('health.asked'),
  'stand.wanted': alone('stand.wanted'),
  paused: alone('paused'),
  'floor.checked': alone('floor.checked'),
  'binding.checked': alone('binding.checked'),
  'handed.over': alone('handed.over'),
  'released.unfit': alone('released.unfit'),
  'home.checked': alone('home.checked'),
  'snow.reported': alone('snow.reported'),
};
