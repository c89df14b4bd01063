/**
 * The graph of what rests on what, edge by edge, on a session in which everything is done: a change in one slot spoils
 * exactly what the table says, and with it undone all is current again.
 */
import { describe, expect, it } from 'vitest';
import { basisFor, Log, SIDES } from '../../core/index.ts';
import type { Fact, Kind, Side } from '../../core/index.ts';
import { counts } from '../../core/guide/readings.ts';
import { sceneOf } from '../../core/guide/scene.ts';
import { RESTS } from '../../core/record/rests.ts';
import type { Hold } from '../../core/record/rests.ts';
import { DUAL, KNEE, Story } from '../helpers/facts.ts';

const INSIDE = {
  boardHeelMm: 24,
  heelLiftMm: 3,
  boardCantDeg: 0,
  forwardLeanPos: 2,
  spoiler: false,
  liner: { id: 'own', heated: false },
};
const OTHER_INSIDE = {
  boardHeelMm: 22,
  heelLiftMm: 0,
  boardCantDeg: 1,
  forwardLeanPos: 3,
  spoiler: true,
  liner: { id: 'own', heated: true },
};

const zones = {
  toe: { heightMedialMm: 19, heightLateralMm: 19, widthMm: 69 },
  heel: { heightMedialMm: 30, heightLateralMm: 30, widthMm: 69 },
};

const rework = (s: Story, side: Side, adjuster: string, newUpMm: number) =>
  s.add('pivot.reworked', { side, adjuster, method: 'slot', newUpMm, newDownMm: 4 } as never);
const knee = (s: Story, side: Side, kneeOffsetMm: number) =>
  s.add('stance.read', {
    side,
    kneeOffsetMm,
    ...KNEE,
  });
const plate = (s: Story, side: Side, thinEdgeMm: number) =>
  s.add('plate.fitted', { side, cantDeg: -2, method: 'plate', thinEdgeMm });

function cuffDone(s: Story, side: Side): void {
  s.boot(side, DUAL);
  for (const adjuster of ['lateral', 'medial']) rework(s, side, adjuster, 4);
  s.add('ready.checked', { side, item: 'footbed', outcome: 'done', note: 'cork' });
  s.add('ready.checked', { side, item: 'shell', outcome: 'done' });
  s.add('ready.checked', { side, item: 'cuff-neutral', outcome: 'kept-as-found' });
  s.add('ready.checked', { side, item: 'liner', outcome: 'done' });
  s.add('inside.set', { side, ...INSIDE });
  s.add('shell.worked', { side, spot: 'navicular', method: 'stretch' });
  s.add('foreaft.read', { side, boardHeelMm: 24, boardToeMm: 12, boardSpanMm: 190, forwardLeanDeg: 13 });
  s.add('sole.set', { side, cantDeg: 0, state: 'as-brought' });
  // Twice, so that with the later record struck the pivots still stand somewhere.
  s.add('cuff.set', { side, lateralMm: 0, medialMm: 0, state: 'as-found' });
  s.set(side, 0, 0);
  s.read(side, 9, 9);
  s.add('cuff.closed', { side, decision: 'even' });
}

function soleDone(s: Story, side: Side): void {
  knee(s, side, 9);
  s.add('sole.set', { side, cantDeg: -2, state: 'test-wedge' });
  knee(s, side, -4);
  knee(s, side, -4);
  s.add('cant.chosen', { side, cantDeg: -2, method: 'plate' });
  s.add('sole.measured', { side, when: 'before', ...zones });
  plate(s, side, 3);
  s.add('sole.measured', { side, ...zones });
}

function done(): Story {
  const s = new Story().open('full');
  s.add('work.agreed', { irreversible: ['slot'], agreedBy: 'owner', warrantyTold: true });
  for (const side of SIDES) cuffDone(s, side);
  s.add('floor.checked', { crossDeg: 0, alongDeg: 0 });
  for (const side of SIDES) soleDone(s, side);
  return s;
}

interface Standing {
  readonly id: string;
  readonly holds: boolean;
  /** Why not, in the plan's words. */
  readonly because: readonly string[];
}

/** Every entry that can be spoiled, and whether it holds today. */
function standing(facts: readonly Fact[]): Standing[] {
  const { sides } = sceneOf(new Log(facts));
  return SIDES.flatMap((side): Standing[] => {
    const { sight, closing, stance, chosen, sole, foreAft } = sides[side];
    const last = (kind: Kind) =>
      facts.findLast((f) => f.kind === kind && 'side' in f && f.side === side && !('when' in f))!.id;
    return [
      ...sight.readings.map((r) => ({ id: r.fact.id, holds: counts(r), because: r.staleBecause })),
      {
        id: last('cuff.closed'),
        holds: closing.is === 'closed',
        because: closing.is === 'reopened' ? closing.because : [],
      },
      ...facts
        .filter((f) => f.kind === 'stance.read' && f.side === side)
        .map(({ id }) => ({ id, holds: stance.facts.includes(id), because: stance.staleBecause })),
      {
        id: last('cant.chosen'),
        holds: chosen.is === 'chosen',
        because: chosen.is === 'stale' ? chosen.because : [],
      },
      {
        id: last('sole.measured'),
        holds: sole.after !== null && sole.staleBecause.length === 0,
        because: sole.staleBecause,
      },
      { id: last('foreaft.read'), holds: foreAft.read !== null, because: foreAft.staleBecause },
    ];
  });
}

const spoiled = (facts: readonly Fact[]): string[] =>
  standing(facts)
    .filter(({ holds }) => !holds)
    .map(({ id }) => id)
    .sort();

/** Slots, as they are named in this log, on which an entry rests in one of these ways. */
function held(log: Log, fact: Fact, ...holds: readonly Hold[]): string[] {
  const { side, item, adjuster, when } = fact as unknown as Record<string, string>;
  const place = { side: side as Side, item: item ?? '', adjuster: adjuster ?? '', when: when ?? 'after' };
  return RESTS[fact.kind]
    .filter(({ hold }) => holds.includes(hold))
    .flatMap(({ on }) => on(place).flatMap((name) => log.under(name)));
}

/** With what rests on the spoiled, by way of it, spoiled as well. */
function closure(
  facts: readonly Fact[],
  log: Log,
  first: readonly string[],
  gone: readonly string[],
): string[] {
  const all = new Set(first);
  const standingIds = standing(facts).map(({ id }) => id);
  for (const id of standingIds) {
    const through = held(log, log.get(id)!, 'through');
    const from = through.flatMap((name) => log.membersKnown(name, id));
    if (from.some((one) => all.has(one) || gone.includes(one))) all.add(id);
  }
  return [...all].filter((id) => !gone.includes(id)).sort();
}

type Change = (s: Story, side: Side, field: string) => void;

/** For each slot: another value, and the old one again. A gathering slot gets one more entry, which is then struck. */
const CHANGES: Readonly<Record<string, { readonly change: Change; readonly back: Change | 'strike' }>> = {
  ready: {
    change: (s, side, item) =>
      item === 'footbed'
        ? s.add('ready.checked', { side, item, outcome: 'done', note: 'foam' })
        : s.add('ready.checked', { side, item: item as 'shell', outcome: 'not-needed' }),
    back: (s, side, item) =>
      item === 'footbed'
        ? s.add('ready.checked', { side, item, outcome: 'done', note: 'cork' })
        : s.add('ready.checked', { side, item: item as 'shell', outcome: 'done' }),
  },
  inside: {
    change: (s, side, field) =>
      s.add('inside.set', { side, [field]: OTHER_INSIDE[field as keyof typeof INSIDE] }),
    back: (s, side, field) => s.add('inside.set', { side, [field]: INSIDE[field as keyof typeof INSIDE] }),
  },
  shell: {
    change: (s, side) => s.add('shell.worked', { side, spot: 'sixth toe', method: 'stretch' }),
    back: 'strike',
  },
  sole: {
    change: (s, side) => s.add('sole.set', { side, cantDeg: -1, state: 'test-wedge' }),
    back: (s, side) => s.add('sole.set', { side, cantDeg: -2, state: 'fitted' }),
  },
  pivots: { change: (s, side) => s.set(side, -1, 1), back: (s, side) => s.set(side, 0, 0) },
  boot: {
    change: (s, side) => s.boot(side, { ...DUAL, holeEdgeMm: 9 } as never),
    back: (s, side) => s.boot(side, DUAL),
  },
  reworked: {
    change: (s, side, adjuster) => rework(s, side, adjuster, 6),
    back: (s, side, adjuster) => rework(s, side, adjuster, 4),
  },
  plate: { change: (s, side) => plate(s, side, 4), back: (s, side) => plate(s, side, 3) },
  measured: {
    change: (s, side, when) =>
      s.add('sole.measured', { side, when: when as 'before', ...zones, toe: { ...zones.toe, widthMm: 68 } }),
    back: 'strike',
  },
  stance: { change: (s, side) => knee(s, side, -4), back: 'strike' },
  read: { change: (s, side) => s.read(side, 9, 9), back: 'strike' },
  closed: { change: (s, side) => s.add('cuff.closed', { side, decision: 'accepted' }), back: 'strike' },
  cant: {
    change: (s, side) => s.add('cant.chosen', { side, cantDeg: -2, method: 'plate', note: 'again' }),
    back: 'strike',
  },
  'work.agreed': {
    change: (s) => s.add('work.agreed', { irreversible: ['rout'], agreedBy: 'owner', warrantyTold: true }),
    back: 'strike',
  },
};

const base = done();
const JUDGED = standing(base.facts).map(({ id }) => id);

/** All slots on which anything that can be spoiled, or the work it rests on, rests. */
const SLOTS = (() => {
  const log = new Log(base.facts);
  const holds: Hold[] = ['known', 'record', 'value', 'members', 'through'];
  return [...new Set(base.facts.flatMap((fact) => held(log, fact, ...holds)))].sort();
})();

/** Entries that a change in this slot spoils at first hand. */
function atOnce(log: Log, name: string): string[] {
  return JUDGED.filter((id) => {
    const fact = log.get(id)!;
    // A further knee reading counts, and the cant was not chosen from it.
    if (name.startsWith('stance/') && held(log, fact, 'through').includes(name)) return true;
    return held(log, fact, 'value', 'members').includes(name);
  });
}

describe('the graph of what rests on what', () => {
  it('[STL-1] begins with everything done and current', () => {
    expect(spoiled(base.facts)).toEqual([]);
    expect(JUDGED).toHaveLength(16);
    expect(SLOTS.length).toBeGreaterThan(30);
    // What a station names as its basis says the same as the list's order.
    const named = base.facts.map((fact, i) => ({ ...fact, basis: basisFor(base.facts.slice(0, i), fact) }));
    expect(standing(named)).toEqual(standing(base.facts));
  });

  it.each(SLOTS)(
    '[STL-1] another value of %s spoils exactly its dependents; put back, all is current',
    (name) => {
      const s = done();
      const log = new Log(s.facts);
      const [kind = '', of, field = ''] = name.split('/');
      const side: Side = of === 'right' ? 'right' : 'left';
      const { change, back } = CHANGES[kind]!;
      const before = s.facts.length;
      change(s, side, field);
      // What is entered anew stands in the place of the old; it is asked whether the others hold.
      const others = (ids: readonly string[]) =>
        ids.filter((id) => log.get(id)?.kind !== s.facts[before]!.kind);
      const expected = closure(base.facts, log, atOnce(log, name), []);
      expect(others(spoiled(s.facts)).filter((id) => JUDGED.includes(id))).toEqual(others(expected));
      for (const { id, holds, because } of standing(s.facts))
        if (!holds && JUDGED.includes(id)) expect(because.length, `${id} says why`).toBeGreaterThan(0);
      if (back === 'strike') s.add('struck', { fact: s.facts[before]!.id, reason: 'undo' }, { role: 'desk' });
      else if (kind === 'ready' && field === 'cuff-neutral')
        s.add('ready.checked', { side, item: field, outcome: 'kept-as-found' });
      else back(s, side, field);
      expect(spoiled(s.facts).filter((id) => JUDGED.includes(id))).toEqual([]);
    },
  );

  it('[STL-2] an entry struck spoils exactly what rested on it; brought back, all is current', () => {
    // Without a description of the boot nothing of it is judged at all.
    for (const fact of base.facts.filter(({ kind }) => kind !== 'boot.described')) {
      const s = done();
      const log = new Log(s.facts);
      const strike = s.add('struck', { fact: fact.id, reason: 'never so' }, { role: 'desk' });
      if (new Log(s.facts).struckBy(fact.id) === null) continue;
      const at = JUDGED.filter((id) => {
        const judged = log.get(id)!;
        const saw = (name: string) => {
          const state = log.asOf(name, id);
          return state.is === 'one' && state.facts.includes(fact.id);
        };
        return (
          held(log, judged, 'value', 'record').some(saw) ||
          held(log, judged, 'members').some((name) => log.membersKnown(name, id).includes(fact.id))
        );
      });
      const expected = closure(base.facts, log, at, [fact.id]);
      const own = (ids: readonly string[]) => ids.filter((id) => JUDGED.includes(id) && id !== fact.id);
      expect(own(spoiled(s.facts)), `${fact.kind} ${fact.id} struck`).toEqual(expected);
      s.add('struck', { fact: strike, reason: 'it was so' }, { role: 'desk' });
      expect(spoiled(s.facts), `${fact.kind} ${fact.id} back`).toEqual([]);
    }
  });
});
