/** A session written fact by fact, as stations write it: ids counted, roles as each kind asks for, basis on request. */
import { basisFor, KINDS, plan } from '../../core/index.ts';
import type { Fact, Kind, Side } from '../../core/index.ts';

export const POSTURE = { parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true };

export const DUAL = {
  pivots: 'dual',
  pivotSpacingMm: 84,
  readingHeightMm: 160,
  factoryLeanDeg: 1,
  travel: { lateral: { upMm: 4, downMm: 4 }, medial: { upMm: 4, downMm: 4 } },
  markMm: 1,
};

export const AT = '2026-01-09T09:12:00+01:00';

export interface Story {
  readonly facts: Fact[];
  /** Adds a fact and gives its id. `basis` in the payload stands as it is. */
  add(kind: Kind, payload?: object): string;
  read(side: Side, medialMm: number, lateralMm: number, more?: object): string;
  set(side: Side, medialMm: number, lateralMm: number, more?: object): string;
  strike(fact: string, more?: object): string;
}

export interface StoryOptions {
  readonly hardware?: object;
  readonly service?: 'cuffs' | 'full';
  /** Write each fact's basis from what is there; otherwise none: the list's order is the basis. */
  readonly basis?: boolean;
  /** Leave out everything after the opening. */
  readonly bare?: boolean;
}

/** Opened, health asked, and unless `bare` both boots described, ready, at neutral and on flat soles. */
export function story({
  hardware = DUAL,
  service = 'cuffs',
  basis = false,
  bare = false,
}: StoryOptions = {}): Story {
  const facts: Fact[] = [];
  const add = (kind: Kind, payload: object = {}): string => {
    const id = `f${facts.length + 1}`;
    const fact = {
      id,
      kind,
      at: AT,
      by: { role: KINDS[kind].roles[0], station: `${KINDS[kind].roles[0]}-1` },
      ...(basis && { basis: basisFor(facts, { kind, ...payload }) }),
      ...payload,
    };
    facts.push(fact as unknown as Fact);
    return id;
  };
  const told: Story = {
    facts,
    add,
    read: (side, medialMm, lateralMm, more) =>
      add('cuff.read', {
        side,
        medialMm,
        lateralMm,
        contact: 'none',
        to: 'shell',
        liner: 'out',
        stanceWidthMm: 240,
        widestAt: 'middle',
        posture: POSTURE,
        ...more,
      }),
    set: (side, medialMm, lateralMm, more) => add('cuff.set', { side, medialMm, lateralMm, ...more }),
    strike: (fact, more) => add('struck', { fact, reason: 'undo', ...more }),
  };
  add('session.opened', { ticket: '1-1', clientRef: 'c-1', service });
  if (bare) return told;
  add('health.asked', { outcome: 'proceed' });
  for (const side of ['left', 'right'] as const) {
    add('boot.described', {
      side,
      model: 'Larkspur 110',
      mondo: 265,
      soleLengthMm: 305,
      soleStandard: 'iso5355-a',
      hardware,
    });
    for (const item of ['footbed', 'shell', 'cuff-neutral'])
      add('ready.checked', { side, item, outcome: 'done' });
    add('sole.set', { side, cantDeg: 0, state: 'as-brought' });
  }
  return told;
}

/** Codes of the problems of a session. */
export const codes = (s: Story): string[] => plan(s.facts).problems.map((p) => p.code);
