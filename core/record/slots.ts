/**
 * What each fact says about the world: which slots it sets, to which value. A slot is one thing that has one
 * value at a time, like the pivots of the left cuff; a later fact that knew an earlier one supersedes it there.
 *
 * Values are compared, not ids: a pivot moved and moved back is the same boot.
 */
import type { Side } from '../frame.ts';
import type { Fact, FactOf } from './facts.ts';
import { ENTERED_NAMES, SETTING_NAMES } from './settings.ts';

export interface Entry {
  readonly slot: string;
  readonly value: unknown;
}

/** Names of the slots of one side. The only place where a slot's name is spelled. */
export const slot = {
  boot: (side: Side) => `boot/${side}`,
  reworked: (side: Side, adjuster: string) => `reworked/${side}/${adjuster}`,
  ready: (side: Side, item: string) => `ready/${side}/${item}`,
  inside: (side: Side, field: string) => `inside/${side}/${field}`,
  pivots: (side: Side) => `pivots/${side}`,
  sole: (side: Side) => `sole/${side}`,
  assessed: (side: Side, field: string) => `assessed/${side}/${field}`,
  shell: (side: Side) => `shell/${side}`,
  read: (side: Side) => `read/${side}`,
  closed: (side: Side) => `closed/${side}`,
  stance: (side: Side) => `stance/${side}`,
  cant: (side: Side) => `cant/${side}`,
  plate: (side: Side) => `plate/${side}`,
  measured: (side: Side, when: string) => `measured/${side}/${when}`,
  foreAft: (side: Side) => `foreaft/${side}`,
  leg: (side: Side) => `leg/${side}`,
  response: (side: Side) => `response/${side}`,
  setting: (name: string) => `setting/${name}`,
} as const;

/** Where the pivots stand. A null medial was not stated: 0 on a boot without a medial adjuster, else unknown. */
export interface PivotsValue {
  readonly lateralMm: number;
  readonly medialMm: number | null;
}

export interface SoleValue {
  readonly cantDeg: number;
  readonly state: FactOf<'sole.set'>['state'] | 'flat';
}

export interface ReadyValue {
  readonly outcome: FactOf<'ready.checked'>['outcome'];
  /** For the footbed, which one it is. A later check without a note speaks of the same one. */
  readonly note?: string | undefined;
}

/** What of the inside of a boot is recorded, each thing by itself. */
export const INSIDE = [
  'boardHeelMm',
  'heelLiftMm',
  'boardCantDeg',
  'forwardLeanPos',
  'spoiler',
  'liner',
] as const;

const ASSESSED = [
  'footLengthMm',
  'footWidthMm',
  'calfGirthMm',
  'dorsiflexionBentDeg',
  'dorsiflexionStraightDeg',
  'forefoot',
  'rearfoot',
  'arch',
  'toeOutDeg',
  'legLengthMm',
  'shinCurve',
  'shellGapMm',
  'hotSpots',
  'note',
];

/** Slots that gather entries in place of holding one value: several heads there are no conflict. */
export const gathers = (slotName: string): boolean =>
  /^(shell|read|stance)\/|^(paused|home\.checked|snow\.reported)$/.test(slotName);

const ENVELOPE = new Set(['id', 'kind', 'at', 'by', 'basis', 'v']);

/** A fact's payload, without its envelope: what two facts are compared by. */
export const payloadOf = (fact: Fact): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fact).filter(([field]) => !ENVELOPE.has(field)));

/** One slot for each of the fields that this program knows; what a newer one wrote beside them means nothing yet. */
const fields = (fact: Fact, known: readonly string[], name: (field: string) => string): Entry[] =>
  Object.entries(fact)
    .filter(([field, value]) => known.includes(field) && value !== undefined)
    .map(([field, value]) => ({ slot: name(field), value: value as unknown }));

const whole = (fact: Fact, slotName: string): Entry[] => [{ slot: slotName, value: payloadOf(fact) }];

function readiness(fact: FactOf<'ready.checked'>): Entry[] {
  const { side, item, outcome, note } = fact;
  const value: ReadyValue = item === 'footbed' ? { outcome, note } : { outcome };
  const entries: Entry[] = [{ slot: slot.ready(side, item), value }];
  // Said once for all: a cuff brought to neutral stands at 0, a sole brought to flat has no cant.
  if (item === 'cuff-neutral' && outcome === 'done')
    entries.push({ slot: slot.pivots(side), value: { lateralMm: 0, medialMm: 0 } satisfies PivotsValue });
  if (item === 'sole-flat' && outcome === 'done')
    entries.push({ slot: slot.sole(side), value: { cantDeg: 0, state: 'flat' } satisfies SoleValue });
  return entries;
}

/** The slots a fact sets, with their values. A struck mark sets none: it takes another fact's away. */
export function entriesOf(fact: Fact): Entry[] {
  switch (fact.kind) {
    case 'session.opened':
    case 'service.changed':
      return [{ slot: 'service', value: fact.service }];
    case 'work.agreed':
    case 'health.asked':
    case 'stand.wanted':
    case 'paused':
    case 'floor.checked':
    case 'binding.checked':
    case 'handed.over':
    case 'released.unfit':
    case 'home.checked':
    case 'snow.reported':
      return whole(fact, fact.kind);
    case 'settings.used':
      return fields(fact, [...SETTING_NAMES, ...ENTERED_NAMES], slot.setting);
    case 'assessed':
      return fields(fact, ASSESSED, (field) => slot.assessed(fact.side, field));
    case 'inside.set':
      return fields(fact, INSIDE, (field) => slot.inside(fact.side, field));
    case 'leg.known':
      return whole(fact, slot.leg(fact.side));
    case 'response.known':
      return whole(fact, slot.response(fact.side));
    case 'boot.described':
      return whole(fact, slot.boot(fact.side));
    case 'pivot.reworked':
      return whole(fact, slot.reworked(fact.side, fact.adjuster));
    case 'ready.checked':
      return readiness(fact);
    case 'shell.worked':
      return whole(fact, slot.shell(fact.side));
    case 'sole.set':
      return [
        {
          slot: slot.sole(fact.side),
          value: { cantDeg: fact.cantDeg, state: fact.state } satisfies SoleValue,
        },
      ];
    case 'plate.fitted':
      return [
        ...whole(fact, slot.plate(fact.side)),
        { slot: slot.sole(fact.side), value: { cantDeg: fact.cantDeg, state: 'fitted' } satisfies SoleValue },
      ];
    case 'cuff.set': {
      const value: PivotsValue = { lateralMm: fact.lateralMm, medialMm: fact.medialMm ?? null };
      return [{ slot: slot.pivots(fact.side), value }];
    }
    case 'cuff.read':
      return whole(fact, slot.read(fact.side));
    case 'cuff.closed':
      return whole(fact, slot.closed(fact.side));
    case 'stance.read':
      return whole(fact, slot.stance(fact.side));
    case 'cant.chosen':
      return whole(fact, slot.cant(fact.side));
    case 'sole.measured':
      return whole(fact, slot.measured(fact.side, fact.when ?? 'after'));
    case 'foreaft.read':
      return whole(fact, slot.foreAft(fact.side));
    // Pictures and what was pointed at in them set nothing: a reading taken from one is an entry of its own.
    case 'photo.taken':
    case 'photo.marked':
    case 'struck':
      return [];
    default:
      return fact satisfies never;
  }
}

/**
 * Are two values of a slot the same? A medial pivot that was not stated counts as 0 here, and a sole's cant is
 * its angle whatever brought it there.
 */
export function sameValue(slotName: string, a: unknown, b: unknown): boolean {
  if (slotName.startsWith('pivots/')) {
    const [p, q] = [a as PivotsValue, b as PivotsValue];
    return p.lateralMm === q.lateralMm && (p.medialMm ?? 0) === (q.medialMm ?? 0);
  }
  if (slotName.startsWith('sole/')) return (a as SoleValue).cantDeg === (b as SoleValue).cantDeg;
  // What somebody noted beside a value is no other value; a footbed's note is which footbed it is.
  return JSON.stringify(sorted(bare(slotName, a))) === JSON.stringify(sorted(bare(slotName, b)));
}

function bare(slotName: string, value: unknown): unknown {
  if (slotName.startsWith('ready/') || typeof value !== 'object' || value === null || !('note' in value))
    return value;
  const { note: _note, ...rest } = value;
  return rest;
}

const sorted = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(sorted)
    : typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .sort(([p], [q]) => (p < q ? -1 : 1))
            .map(([k, v]) => [k, sorted(v)]),
        )
      : value;
