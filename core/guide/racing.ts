/** The heights of a racer's boot against what competition rules allow, each limit with where it comes from. */
import type { Side } from '../frame.ts';
import { RACE_RULES, raceCheck, soleHeightWith } from '../maths/racing.ts';
import type { RaceClass, RaceHeights, RacePlace, RaceRules } from '../maths/racing.ts';
import type { SoleWork } from '../maths/sole.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import type { EnteredName } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Problem, RaceLimit, RacingPlan } from './shape.ts';
import { mmWords } from './words.ts';

type Measured = FactOf<'sole.measured'>;

/** What a sole's height is worked out from. */
export interface RaceGround {
  readonly before: Measured | null;
  /** The finished sole, as far as its measurement counts. */
  readonly after: Measured | null;
  readonly work: SoleWork | null;
}

const SHOP_LIMIT: Readonly<Record<RacePlace, EnteredName>> = {
  standHeightMm: 'raceStandMaxMm',
  soleHeightMm: 'raceSoleMaxMm',
};
const WORDS: Readonly<Record<RacePlace, string>> = {
  standHeightMm: 'the height from the ski to the sole',
  soleHeightMm: 'the height of the sole at the heel',
};

export function classOf(opened: FactOf<'session.opened'> | undefined): RaceClass | null {
  if (!opened?.racing) return null;
  return opened.raceClass ?? (opened.youth ? 'children' : 'general');
}

/** The preset's limits, each replaced by the shop's own figure where it entered one. */
function rulesOf(log: Log, race: RaceClass): RaceRules {
  const preset: RaceRules = RACE_RULES[race];
  const own = (place: RacePlace) => {
    const state = log.now(slot.setting(SHOP_LIMIT[place]));
    return state.is === 'one'
      ? { maxMm: state.value as Mm, provenance: 'entered by the shop' }
      : preset[place];
  };
  return { ...preset, standHeightMm: own('standHeightMm'), soleHeightMm: own('soleHeightMm') };
}

/** The most that the work raises the heel: plates at their thick edge, planing where it takes least. */
export function raisedBy(work: SoleWork): Mm {
  switch (work.method) {
    case 'plate':
      return work.plates.heel.thickEdgeMm;
    case 'plane':
      return mm(work.lifterMm - Math.min(work.cut.heel.medialMm, work.cut.heel.lateralMm));
    default:
      return work satisfies never;
  }
}

/** As measured once finished, else as it was before with what the work adds; null where nobody measured. */
export function soleHeightOf({ before, after, work }: RaceGround): Mm | null {
  if (after?.soleHeightMm !== undefined) return after.soleHeightMm;
  if (before?.soleHeightMm === undefined) return null;
  return work ? soleHeightWith(before.soleHeightMm, raisedBy(work)) : before.soleHeightMm;
}

/** Null for those who do not race. */
export function racingOf(log: Log, side: Side, ground: RaceGround): RacingPlan | null {
  const race = classOf(log.live('session.opened')[0]);
  if (!race) return null;
  const rules = rulesOf(log, race);
  const read = log.now(slot.foreAft(side));
  const stand = read.is === 'one' ? (read.value as FactOf<'foreaft.read'>).skiStandMm : undefined;
  const heights: RaceHeights = { standHeightMm: stand ?? null, soleHeightMm: soleHeightOf(ground) };
  const { allowed, roomMm } = raceCheck(heights, rules);
  const limit = (place: RacePlace): RaceLimit => ({
    isMm: heights[place],
    maxMm: rules[place]?.maxMm ?? null,
    roomMm: roomMm[place],
    provenance: rules[place]?.provenance ?? null,
  });
  const { title, season } = rules;
  return {
    raceClass: race,
    rules: `${title}, ${season}`,
    standHeightMm: limit('standHeightMm'),
    soleHeightMm: limit('soleHeightMm'),
    allowed,
  };
}

/** Heights over their limit. The limits are second-hand, so they stop nothing by themselves. */
export function racingProblems(side: Side, racing: RacingPlan | null): Problem[] {
  if (!racing) return [];
  return (['standHeightMm', 'soleHeightMm'] as const).flatMap((place): Problem[] => {
    const { isMm, maxMm, roomMm, provenance } = racing[place];
    if (isMm === null || maxMm === null || roomMm === null || roomMm >= -1e-9) return [];
    const text = `The ${side} boot, ${WORDS[place]}: ${mmWords(isMm)}, and ${racing.rules} allows ${mmWords(maxMm)} (${provenance}).`;
    return [{ side, code: 'race-limit', text }];
  });
}
