/**
 * Boots that would reach a leg: what the readings of one side say of the leg's line, carried into the shop's other
 * models. Apart from the plan, which never sees the catalogue.
 */
import type { Side } from '../frame.ts';
import { shift } from '../maths/cuff.ts';
import { legLine, placeInShell, reachOf } from '../maths/reach.ts';
import type { LegLine, Reached } from '../maths/reach.ts';
import { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { mm } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { cuffOf } from './cuff.ts';
import type { CuffGrounds } from './cuff.ts';
import { knownOffset, lineOffset, observation } from './evidence.ts';
import { hardwareOf, settingsOf, sideNow } from './side.ts';
import type { Hardware, SideNow } from './side.ts';
import type { CuffPlan } from './shape.ts';

/** A leg as it may be carried into other boots. */
export interface KnownLeg {
  readonly is: 'known';
  readonly side: Side;
  readonly line: LegLine;
  /** Standard deviation of its place at the reading height; null for a bound. */
  readonly sdMm: Mm | null;
  /** Pressed laterally the leg stands at least so far lateral, pressed medially at most. */
  readonly bound: 'exact' | 'at-least' | 'at-most';
  /** Where the line's place at the pivot line comes from. `centre`: nothing was known, it is taken through the centre. */
  readonly through: 'two-heights' | 'known-leg' | 'centre';
  /** Ids of the readings it rests on. */
  readonly facts: readonly string[];
}

export type Leg = KnownLeg | { readonly is: 'unknown'; readonly because: string };

/** One of the shop's boot models. */
export interface BootModel {
  readonly model: string;
  /** As a boot is described; without its factory lean the leg cannot be carried into it. */
  readonly hardware: Hardware & { readonly factoryLeanDeg: Deg };
  /** What was learned of how this model answers a move; absent: one for one. */
  readonly response?: { readonly k: number; readonly sd: number };
}

export interface ModelReach<Boot extends BootModel = BootModel> extends Reached {
  readonly model: string;
  /** What was asked about. */
  readonly boot: Boot;
  /** As the leg's: a bound carried is a bound still. */
  readonly bound: KnownLeg['bound'];
}

/** Place of the leg lateral of the cuff's centre at neutral, `m = D/2` there, from all its readings or a bound alone. */
function placed(log: Log, now: SideNow, { newest, prior, joint }: CuffGrounds, settings: Settings) {
  const hardware = now.hardware!;
  const neutral = joint?.at(mm(0));
  if (neutral) return { mMm: mm(neutral.biasMm / 2), sdMm: mm(neutral.sdMm / 2), bound: 'exact' as const };
  const { biasMm, bound } = observation(hardware, newest, settings, lineOffset(log, now.side));
  return { mMm: mm(biasMm / 2 + prior.response.k * shift(hardware, newest.set!)), sdMm: null, bound };
}

/** Where the line crosses the pivot line: read here at two heights, else known from elsewhere, else the centre. */
function crossing(
  log: Log,
  side: Side,
  { twoHeights }: CuffPlan,
): { offsetMm: Mm; through: KnownLeg['through'] } {
  if (twoHeights) return { offsetMm: twoHeights.offsetMm, through: 'two-heights' };
  const known = knownOffset(log, side);
  return known === null ? { offsetMm: mm(0), through: 'centre' } : { offsetMm: known, through: 'known-leg' };
}

/**
 * The leg of one side in its shell's frame, from the session's readings: `x_leg(h) = h·sin f + m` at the reading
 * height, f the factory lean, m its place in the joint estimate; from there to where it crosses the pivot line.
 *
 * 12 mm medial and 6 lateral at neutral, 160 mm up, factory lean 1°: 5.792 mm lateral there, a line of 2.073°.
 *
 * @param facts the session's facts, as for `plan`
 * @returns `unknown`, with the reason, where no reading counts or the boot's factory lean is not known
 */
export function legOf(facts: readonly { readonly kind: string }[], side: Side): Leg {
  const log = new Log(facts);
  return legFrom(log, sideNow(log, side));
}

/** The same from a log that is there already. */
export function legFrom(log: Log, now: SideNow): Leg {
  const { side } = now;
  const unknown = (because: string): Leg => ({ is: 'unknown', because });
  if (now.missing.boot) return unknown(now.missing.boot);
  const factory = now.hardware!.factoryLeanDeg;
  if (factory === null)
    return unknown(
      `The factory lean of the ${side} boot is not known: enter it, and the leg can be carried.`,
    );
  const settings = settingsOf(log);
  const { cuff, grounds } = cuffOf(log, now, settings);
  if (cuff.verdict === 'too-narrow')
    return unknown(`The ${side} cuff presses on both sides: it says nothing of the leg's line.`);
  if (!grounds) return unknown(now.missing.set ?? `No reading of the ${side} cuff counts.`);
  const height = now.hardware!.readingHeightMm;
  const { mMm, sdMm, bound } = placed(log, now, grounds, settings);
  const { offsetMm, through } = crossing(log, side, cuff);
  return {
    is: 'known',
    side,
    line: legLine(placeInShell(mMm, height, factory), height, offsetMm),
    sdMm,
    bound,
    through,
    facts: grounds.used.map(({ fact }) => fact.id),
  };
}

/**
 * What each model could do for this leg, most spare lean first; equal ones stay in the catalogue's order.
 *
 * The leg of the example above (2.073°) in a boot upright at neutral, pivots 80 mm apart, 3 mm of travel either
 * way, read 150 mm up: 2.075° wanted, 0.074° to spare.
 */
export function reach<Boot extends BootModel>(leg: KnownLeg, models: readonly Boot[]): ModelReach<Boot>[] {
  return models
    .map((boot) => ({
      model: boot.model,
      boot,
      bound: leg.bound,
      ...reachOf(leg.line, {
        hardware: { ...hardwareOf(boot.hardware), factoryLeanDeg: boot.hardware.factoryLeanDeg },
        response: boot.response?.k ?? 1,
      }),
    }))
    .sort((a, b) => b.spareDeg - a.spareDeg);
}
