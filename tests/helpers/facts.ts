/** A session written by hand: facts with ids, times and authors filled in, one after the other. */
import type { Fact, Kind, Payload, Role, Side } from '../../core/index.ts';
import { KINDS } from '../../core/index.ts';

export const HELD = { parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true };

type Hardware = Payload<'boot.described'>['hardware'];
type Extra = {
  readonly id?: string;
  readonly basis?: readonly string[];
  readonly role?: Role;
  readonly v?: number;
};
/** A payload whose lengths and angles may be plain numbers. */
type Plain<T> = T extends number ? number : T extends object ? { [K in keyof T]: Plain<T[K]> } : T;

export const DUAL = {
  pivots: 'dual',
  pivotSpacingMm: 84,
  readingHeightMm: 160,
  factoryLeanDeg: 1,
  travel: { lateral: { upMm: 4, downMm: 4 }, medial: { upMm: 4, downMm: 4 } },
} as unknown as Hardware;

export const SINGLE = {
  pivots: 'single',
  pivotSpacingMm: 82,
  readingHeightMm: 155,
  factoryLeanDeg: 0.5,
  travel: { lateral: { upMm: 5, downMm: 5 } },
} as unknown as Hardware;

export const FIXED = {
  pivots: 'fixed',
  pivotSpacingMm: 80,
  readingHeightMm: 150,
  travel: { lateral: { upMm: 0, downMm: 0 } },
} as unknown as Hardware;

export const withMarks = (hardware: Hardware, markMm: number): Hardware =>
  ({ ...hardware, markMm }) as Hardware;

/** A boot described with all that work under its sole needs. */
export const WHOLE_BOOT = {
  model: 'Larkspur 110',
  mondo: 265,
  soleLengthMm: 305,
  soleStandard: 'iso5355-a',
  hardware: DUAL,
  soleWidthToeMm: 69,
  soleWidthHeelMm: 69,
  soleReplaceable: false,
} as const;

/** How a knee is read, beside where it stands. */
export const KNEE = {
  kneeHeightMm: 468,
  stanceWidthMm: 240,
  kneeMark: 'condyles',
  restood: true,
  posture: HELD,
} as const;

export class Story {
  readonly facts: Fact[] = [];

  /** Adds a fact and gives its id. */
  add<K extends Kind>(kind: K, payload: Plain<Payload<K>>, { id, basis, role, v }: Extra = {}): string {
    const count = this.facts.length + 1;
    const by = role ?? KINDS[kind].roles[0]!;
    const fact = {
      id: id ?? `f${count}`,
      kind,
      at: `2026-01-09T${String(9 + Math.floor(count / 60)).padStart(2, '0')}:${String(count % 60).padStart(2, '0')}:00+01:00`,
      by: { role: by, station: `${by}-1` },
      ...(basis && { basis }),
      ...(v && { v }),
      ...payload,
    };
    this.facts.push(fact as unknown as Fact);
    return fact.id;
  }

  open(service: 'cuffs' | 'full' | 'recheck' = 'cuffs'): this {
    this.add('session.opened', { ticket: '1-41', clientRef: 'c-41', service });
    this.add('health.asked', { outcome: 'proceed' });
    return this;
  }

  boot(side: Side, hardware: Hardware): this {
    this.add('boot.described', {
      side,
      model: 'Larkspur 110',
      mondo: 265,
      soleLengthMm: 305,
      soleStandard: 'iso5355-a',
      hardware,
    } as Plain<Payload<'boot.described'>>);
    return this;
  }

  ready(side: Side): this {
    for (const item of ['footbed', 'shell', 'cuff-neutral'] as const)
      this.add('ready.checked', { side, item, outcome: 'done' }, { role: 'measuring' });
    this.add('sole.set', { side, cantDeg: 0, state: 'as-brought' });
    return this;
  }

  read(
    side: Side,
    medialMm: number,
    lateralMm: number,
    more: Partial<Plain<Payload<'cuff.read'>>> = {},
    extra?: Extra,
  ): string {
    return this.add(
      'cuff.read',
      {
        side,
        medialMm,
        lateralMm,
        contact: 'none',
        to: 'shell',
        liner: 'out',
        stanceWidthMm: 240,
        widestAt: 'middle',
        posture: HELD,
        ...more,
      },
      extra,
    );
  }

  set(side: Side, lateralMm: number, medialMm?: number, extra?: Extra): string {
    return this.add('cuff.set', { side, lateralMm, ...(medialMm !== undefined && { medialMm }) }, extra);
  }
}

/** Both boots described, readied, and flat: the gaps can be read. */
export const story = (left: Hardware = DUAL, right: Hardware = left): Story =>
  new Story().open().boot('left', left).boot('right', right).ready('left').ready('right');
