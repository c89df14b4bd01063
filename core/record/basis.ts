/**
 * What a new entry rests on: the heads of every slot that its kind depends on, its own slots included, so that
 * it supersedes what its author saw there and nothing else.
 */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Fact } from './facts.ts';
import type { Kind } from './kinds.ts';
import { Log } from './log.ts';
import { slot } from './slots.ts';

/** As much of an entry as says what it rests on. */
export interface Draft {
  readonly kind: Kind;
  readonly side?: Side | undefined;
  readonly item?: string | undefined;
  readonly adjuster?: string | undefined;
  readonly when?: string | undefined;
}

/** Slot prefixes: a trailing `/` takes in everything below. */
function prefixes({ kind, side: of, item, adjuster, when }: Draft): readonly string[] {
  const side = of ?? 'left';
  const boot = [slot.boot(side), slot.reworked(side, '')];
  const leg = [slot.ready(side, ''), slot.inside(side, ''), slot.shell(side), slot.sole(side)];
  switch (kind) {
    case 'session.opened':
    case 'struck':
      return [];
    case 'service.changed':
      return ['service'];
    case 'settings.used':
      return [slot.setting('')];
    case 'assessed':
      return [`assessed/${side}/`];
    case 'inside.set':
      return [slot.inside(side, '')];
    case 'leg.known':
      return [slot.leg(side)];
    case 'response.known':
      return [slot.response(side)];
    case 'boot.described':
      return [slot.boot(side)];
    case 'pivot.reworked':
      return [
        'work.agreed',
        slot.boot(side),
        slot.reworked(side, adjuster ?? ''),
        slot.pivots(side),
        slot.closed(side),
      ];
    case 'ready.checked':
      return [
        slot.ready(side, item ?? ''),
        ...(item === 'cuff-neutral' ? [slot.pivots(side)] : []),
        ...(item === 'sole-flat' ? [slot.sole(side)] : []),
      ];
    case 'shell.worked':
      return ['work.agreed', slot.shell(side)];
    case 'sole.set':
      return [slot.sole(side)];
    case 'cuff.set':
      return [...boot, slot.pivots(side), slot.read(side)];
    case 'cuff.read':
      return [...boot, ...leg, slot.pivots(side), slot.read(side)];
    case 'cuff.closed':
      return [...boot, ...leg, slot.pivots(side), slot.read(side), slot.closed(side)];
    case 'stance.read':
      return [...SIDES.map(slot.pivots), ...SIDES.map(slot.closed), ...leg, slot.stance(side)];
    case 'cant.chosen':
      return [slot.stance(side), slot.cant(side)];
    case 'plate.fitted':
      return [
        'work.agreed',
        slot.cant(side),
        slot.plate(side),
        slot.sole(side),
        slot.measured(side, 'before'),
      ];
    case 'sole.measured':
      return [slot.plate(side), slot.sole(side), slot.measured(side, when ?? 'after')];
    case 'foreaft.read':
      return [slot.foreAft(side), slot.inside(side, ''), slot.plate(side)];
    case 'work.agreed':
    case 'health.asked':
    case 'paused':
    case 'floor.checked':
    case 'binding.checked':
    case 'handed.over':
    case 'released.unfit':
    case 'home.checked':
    case 'snow.reported':
      return [kind];
    default:
      return kind satisfies never;
  }
}

/** Ids of the heads that an entry made now, on top of these facts, rests on. */
export function basisFor(facts: readonly Fact[], draft: Draft): string[] {
  const log = new Log(facts);
  const ids = new Set<string>();
  for (const prefix of prefixes(draft))
    for (const name of prefix.endsWith('/') ? log.slots(prefix) : [prefix])
      for (const id of log.heads(name)) ids.add(id);
  return [...ids];
}
