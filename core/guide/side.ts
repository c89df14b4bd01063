/** One boot as it is now: its hardware, where its pivots stand, what is under it, and what is wrong with the record of it. */
import type { Adjuster, Side } from '../frame.ts';
import { marks, misplaced } from '../maths/hardware.ts';
import type { AdjusterReach, HardwareNow, Pair, Stop } from '../maths/hardware.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { DEFAULT_SETTINGS, SETTING_NAMES } from '../record/settings.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import type { PivotsValue, SoleValue } from '../record/slots.ts';
import { deg, mm } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { disputeOf } from './conflicts.ts';
import type { Problem } from './shape.ts';
import { placeWords } from './words.ts';

export type Hardware = FactOf<'boot.described'>['hardware'];

export interface SideNow {
  readonly side: Side;
  readonly boot: FactOf<'boot.described'> | null;
  readonly hardware: HardwareNow | null;
  readonly set: Pair | null;
  readonly sole: SoleValue | null;
  readonly problems: readonly Problem[];
  /** Why pivots, sole or boot are unknown, in words; null where they are known. */
  readonly missing: {
    readonly boot: string | null;
    readonly set: string | null;
    readonly sole: string | null;
  };
}

/** The shop's settings as this session pinned them. */
export function settingsOf(log: Log): Settings {
  const pinned = SETTING_NAMES.map((name) => {
    const state = log.now(slot.setting(name));
    return [name, state.is === 'one' ? (state.value as number) : DEFAULT_SETTINGS[name]] as const;
  });
  return Object.fromEntries(pinned) as Settings;
}

/** Marks count from neutral; unequal positions come before them, as round eccentrics and stepped inserts have. */
function stopsOf(described: Hardware, adjuster: Adjuster, minMm: Mm, maxMm: Mm): readonly Stop[] | null {
  const positions = described.positions?.[adjuster];
  if (positions)
    return positions
      .filter(({ mm: at }) => at >= minMm - 1e-6 && at <= maxMm + 1e-6)
      .map(({ label, mm: at }) => ({ label, mm: mm(at) }))
      .sort((a, b) => a.mm - b.mm);
  return described.markMm === undefined ? null : marks(minMm, maxMm, described.markMm);
}

/** Travel of one adjuster: as described, or as the newest rework left it. */
function reachOf(
  described: Hardware,
  adjuster: Adjuster,
  rework: FactOf<'pivot.reworked'> | null,
): AdjusterReach | null {
  if (rework) {
    const neutral = rework.neutralShiftMm ?? mm(0);
    const [minMm, maxMm] = [mm(neutral - rework.newDownMm), mm(neutral + rework.newUpMm)];
    // A reworked hole no longer carries the stepped insert; plain marks go on from the new neutral.
    const stepped = described.positions?.[adjuster] || described.markMm === undefined;
    return { minMm, maxMm, stops: stepped ? null : marks(minMm, maxMm, described.markMm!, neutral) };
  }
  const travel = described.travel[adjuster];
  if (!travel) return null;
  const [minMm, maxMm] = [mm(0 - travel.downMm), mm(travel.upMm)];
  return { minMm, maxMm, stops: stopsOf(described, adjuster, minMm, maxMm) };
}

const AS_MADE = { lateral: null, medial: null };

/** Described hardware as it is now: reworked travel in the place of what it was made with. */
export function hardwareOf(
  hardware: Hardware,
  rework: Record<Adjuster, FactOf<'pivot.reworked'> | null> = AS_MADE,
): HardwareNow {
  const { pivots } = hardware;
  // A fixed cuff that was given a slot moves there all the same.
  const lateral = pivots === 'fixed' && !rework.lateral ? null : reachOf(hardware, 'lateral', rework.lateral);
  const medial = pivots !== 'dual' && !rework.medial ? null : reachOf(hardware, 'medial', rework.medial);
  return {
    pivots,
    pivotSpacingMm: hardware.pivotSpacingMm,
    readingHeightMm: hardware.readingHeightMm,
    factoryLeanDeg: hardware.factoryLeanDeg ?? null,
    lateral,
    medial,
    markMm: hardware.markMm ?? null,
  };
}

/** A pair of pivots from what was stated, as this hardware reads it; null where a pivot is unknown. */
export function pairOf(hardware: HardwareNow, value: PivotsValue): Pair | null {
  if (value.medialMm === null && hardware.pivots === 'dual') return null;
  return { medialMm: mm(value.medialMm ?? 0), lateralMm: mm(value.lateralMm) };
}

const AT_REST: Pair = { medialMm: mm(0), lateralMm: mm(0) };

function placed(side: Side, hardware: HardwareNow, set: Pair, fact: string): Problem[] {
  return (['lateral', 'medial'] as const).flatMap((adjuster): Problem[] => {
    const at = adjuster === 'lateral' ? set.lateralMm : set.medialMm;
    const why = misplaced(hardware, adjuster, at);
    if (!why) return [];
    const text =
      why === 'travel'
        ? `The ${side} boot's ${adjuster} pivot is recorded at ${placeWords(at)}, outside its travel.`
        : `The ${side} boot's ${adjuster} pivot is recorded at ${placeWords(at)}, between two marks.`;
    return [{ fact, side, code: why === 'travel' ? 'beyond-travel' : 'off-marks', text }];
  });
}

export function sideNow(log: Log, side: Side): SideNow {
  const problems: Problem[] = [];
  const take = <T>(name: string, ask: string): { value: T | null; why: string | null } => {
    const state = log.now(name);
    return state.is === 'one'
      ? { value: state.value as T, why: null }
      : { value: null, why: disputeOf(log, name) ?? ask };
  };
  const boot = take<FactOf<'boot.described'>>(
    slot.boot(side),
    `Describe the ${side} boot and its pivot hardware.`,
  );
  const reworked = (adjuster: Adjuster) =>
    take<FactOf<'pivot.reworked'>>(slot.reworked(side, adjuster), '').value;
  const rework = { lateral: reworked('lateral'), medial: reworked('medial') };
  const hardware = boot.value && hardwareOf(boot.value.hardware, rework);
  const pivots = take<PivotsValue>(
    slot.pivots(side),
    `Record where the ${side} cuff's pivots stand, or bring them to neutral.`,
  );
  const sole = take<SoleValue>(
    slot.sole(side),
    `Record the cant under the ${side} boot: a sole nobody looked at is not flat.`,
  );

  const immovable = hardware !== null && !hardware.lateral && !hardware.medial;
  const stated = hardware && pivots.value ? pairOf(hardware, pivots.value) : null;
  const set = stated ?? (immovable && !pivots.value ? AT_REST : null);
  if (hardware && pivots.value && !stated)
    problems.push({
      side,
      code: 'medial-missing',
      text: `The ${side} cuff has two adjusters; record where the medial one stands.`,
    });
  if (hardware?.pivots === 'dual' && !hardware.medial)
    problems.push({
      side,
      code: 'travel-unknown',
      text: `The travel of the ${side} boot's medial pivot is not described; it is left where it is.`,
    });
  if (hardware && stated)
    problems.push(...placed(side, hardware, stated, log.heads(slot.pivots(side)).at(-1)!));
  return {
    side,
    boot: boot.value,
    hardware,
    set,
    sole: sole.value,
    problems,
    missing: {
      boot: boot.value ? null : boot.why,
      set: set ? null : (pivots.why ?? `Record where both pivots of the ${side} cuff stand.`),
      sole: sole.why,
    },
  };
}

/** Cant in all that a boot stands on, degrees, outward positive; null when unknown. */
export const cantUnder = (sole: SoleValue | null): Deg | null => (sole ? deg(sole.cantDeg) : null);
