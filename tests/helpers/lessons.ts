/** Sessions that teach: one boot of a known response, read, moved and read again by a program at the front door. */
import { randomBytes } from 'node:crypto';
import type { Fact, Payload, Role, Side } from '../../core/index.ts';
import { shift } from '../../core/maths/cuff.ts';
import { hardwareOf } from '../../core/guide/side.ts';
import { mm } from '../../core/units.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { DUAL, Story } from './facts.ts';

export interface Taught {
  readonly clientRef?: string;
  readonly ticket?: string;
  readonly model?: string;
  readonly tag?: string;
  readonly side?: Side;
  /** True response of this boot. */
  readonly k?: number;
  /** Bias at neutral, mm. */
  readonly biasMm?: number;
  /** What the last reading is off by, mm of bias. */
  readonly offMm?: number;
  /** Pivots that are set one after the other, lateral and medial alike; the first stands at neutral. */
  readonly settings?: readonly number[];
  readonly close?: boolean;
}

/** The facts of such a session. Medial up and lateral down by each setting: the cuff leans outward. */
export function teaching(of: Taught = {}): Story {
  const { model = 'Larkspur 110', tag, side = 'left', k = 1, biasMm = 10, offMm = 0 } = of;
  const settings = of.settings ?? [0, 1, 2];
  const told = new Story();
  told.add('session.opened', {
    ticket: of.ticket ?? '1-1',
    clientRef: of.clientRef ?? `p${randomBytes(8).toString('hex')}`,
    service: 'cuffs',
  });
  told.add('health.asked', { outcome: 'proceed' });
  told.add('boot.described', {
    side,
    model,
    mondo: 265,
    soleLengthMm: 305,
    soleStandard: 'iso5355-a',
    hardware: DUAL as never,
    ...(tag ? { tag } : {}),
  });
  told.ready(side);
  const hardware = hardwareOf(DUAL);
  settings.forEach((at, i) => {
    if (i > 0) told.add('cuff.set', { side, medialMm: at, lateralMm: -at });
    const moved = shift(hardware, { medialMm: mm(at), lateralMm: mm(-at) });
    const bias = biasMm - 2 * k * moved + (i === settings.length - 1 ? offMm : 0);
    // To a thousandth: a difference of two floats would not be the same on the way back.
    told.read(side, Number((11 + bias / 2).toFixed(3)), Number((11 - bias / 2).toFixed(3)));
  });
  if (of.close) told.add('cuff.closed', { side, decision: 'even' }, { role: 'measuring' });
  return told;
}

/** Enters them as one station of all roles. Resolves once all is on disk. */
export async function enter(
  station: Station,
  told: Story,
  session = randomBytes(16).toString('hex'),
): Promise<{ readonly session: string; readonly room: Room }> {
  const room = await station.enter(session);
  for (const fact of told.facts) {
    const { id: _id, kind, at: _at, by, basis: _basis, ...payload } = fact as Fact & { basis?: unknown };
    await room.add(by.role as Exclude<Role, 'server'>, kind, payload as Payload<typeof kind>);
  }
  return { session, room };
}
