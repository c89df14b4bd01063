/** The shape of a plan: everything that follows from the facts of one session. Documented in docs/session-format.md. */
import type { Side } from '../frame.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import type { Profile } from '../maths/sole.ts';
import type { Lengthening } from '../maths/slot.ts';
import type { Role } from '../record/kinds.ts';
import type { Deg, Mm } from '../units.ts';

export type Contact = 'none' | 'medial' | 'lateral' | 'both';
export type Pressure = 'graze' | 'press';

export interface ReadingView extends Pair {
  /** medial − lateral: positive when the leg stands lateral of the cuff centre. */
  readonly biasMm: Mm;
  readonly repeats: number;
  /** Range of the repeats' bias; null for one reading. */
  readonly spreadMm: Mm | null;
  readonly contact: Contact;
  readonly pressure: Pressure | null;
  readonly stale: boolean;
  readonly staleBecause: readonly string[];
  /** Ids of the readings pooled here. */
  readonly facts: readonly string[];
}

export type CuffVerdict = 'unread' | 'even' | 'uneven' | 'contact' | 'too-narrow' | 'out-of-travel';

export interface Move extends Pair {
  readonly medialMarks?: number;
  readonly lateralMarks?: number;
  /** One sentence in words before numbers, with the absolute destination. */
  readonly text: string;
}

/** One setting of the cuff and what was read there, oldest first. */
export interface Round {
  readonly set: Pair;
  readonly biasMm: Mm;
  readonly medialMm: Mm;
  readonly lateralMm: Mm;
  /** What was expected at this setting before it was read; null for the first. */
  readonly predictedBiasMm: Mm | null;
  /** How the newest of its readings touched: from press to graze to gap is progress, even when nothing moved. */
  readonly contact: Contact;
  readonly pressure: Pressure | null;
  /** How the touch changed since the reading before, in words; null when it did not, or none was before. */
  readonly progress: string | null;
  readonly stale: boolean;
  readonly facts: readonly string[];
}

/** Longer slots that would give the travel that is missing. */
export interface Extension extends Lengthening {
  readonly leastEdgeMm: Mm;
  /** Which end of each slot is cut. */
  readonly way: { readonly lateral: 'up' | 'down'; readonly medial: 'up' | 'down' };
  /** What must stand on record before anybody cuts, as far as it does not. */
  readonly before: readonly string[];
  readonly text: string;
}

export interface CuffPlan {
  readonly hardware: HardwareNow | null;
  /** Pivot positions now. */
  readonly set: Pair | null;
  readonly leanDeg: Deg | null;
  readonly reading: ReadingView | null;
  readonly verdict: CuffVerdict;
  /** Best estimate of the bias at today's setting, or the bound itself; its standard deviation is null for a bound. */
  readonly biasMm: Mm | null;
  readonly biasSdMm: Mm | null;
  readonly correctionDeg: Deg | null;
  readonly correctionSdDeg: Deg | null;
  readonly bound: 'exact' | 'at-least' | null;
  readonly target: (Pair & { readonly leanDeg: Deg | null }) | null;
  readonly move: Move | null;
  readonly predicted: Pair | null;
  readonly limitedBy: null | 'travel' | 'marks';
  readonly chanceEven: number | null;
  readonly chanceEvenAfter: number | null;
  /** After a move and before it is read: the gaps to expect. */
  readonly expected: Pair | null;
  readonly response: { readonly k: number; readonly sd: number };
  readonly shortBy: { readonly leanDeg: Deg; readonly biasMm: Mm; readonly pivotMm: Mm } | null;
  /** Longer slots for what the travel does not reach, where the boot allows them and its edges are known. */
  readonly extension: Extension | null;
  readonly twoHeights: {
    readonly angleDeg: Deg;
    readonly offsetMm: Mm;
    readonly offsetSdMm: Mm;
    readonly agree: boolean;
    readonly parallel: {
      readonly correctionDeg: Deg;
      readonly target: (Pair & { readonly leanDeg: Deg | null }) | null;
      readonly predicted: Pair | null;
    };
  } | null;
  readonly rounds: readonly Round[];
  /** Whether one more reading would say more than a move, and why. */
  readonly readAgain: string | null;
  /** Whether one more move is worth it although the cuff reads even, and why. */
  readonly moveOn: string | null;
}

/** Completed by the computing core's later stages; null until then. */
export interface StancePlan {
  readonly offsetMm: Mm | null;
  readonly slopeMmPerDeg: number | null;
  readonly cantDeg: Deg | null;
  readonly cantSdDeg: Deg | null;
  /** Nine tenths of the chance lie within; null where that has no end. */
  readonly cantRange: { readonly lowDeg: Deg; readonly highDeg: Deg } | null;
  readonly roundedDeg: Deg | null;
  readonly thickEdge: 'medial' | 'lateral' | 'none' | null;
  readonly verdict: 'blocked' | 'unread' | 'flat-enough' | 'cant' | 'refer' | 'contradictory';
  readonly nextWedgeDeg: Deg | null;
}

/** A plate across one zone: at both edges of the sole, and by which of them is thin. */
interface PlateEdge extends Pair {
  readonly thinEdgeMm: Mm;
  readonly thickEdgeMm: Mm;
  readonly centreMm: Mm;
}

/** A height that competition rules limit. Null where nobody measured, or no limit is known. */
export interface RaceLimit {
  readonly isMm: Mm | null;
  readonly maxMm: Mm | null;
  /** What may still be added; negative: too much. */
  readonly roomMm: Mm | null;
  /** Where the limit comes from. */
  readonly provenance: string | null;
}

export interface RacingPlan {
  readonly raceClass: 'general' | 'masters' | 'children';
  readonly rules: string;
  readonly standHeightMm: RaceLimit;
  readonly soleHeightMm: RaceLimit;
  /** Null: nothing could be checked. */
  readonly allowed: boolean | null;
}

/** Lengths that a screw may have; the most is null where the material is not known, or too thin for any. */
export interface ScrewLengths {
  readonly minMm: Mm;
  readonly maxMm: Mm | null;
  /** Longer adds no grip. */
  readonly usefulMm: Mm | null;
}

type EdgeScrews = { readonly medial: ScrewLengths; readonly lateral: ScrewLengths };
export type ScrewsPlan = { readonly toe: EdgeScrews; readonly heel: EdgeScrews };

/** How much higher than the other boot this one is to stand, and on whose word. */
export interface WantedStand {
  readonly overMm: Mm;
  readonly onWordOf: 'clinician' | 'skier';
}

export interface SolePlan {
  /** The cant under the boot now, in all; null when nobody recorded it or two records disagree. */
  readonly cantDeg: Deg | null;
  readonly plate: { readonly toe: PlateEdge; readonly heel: PlateEdge } | null;
  /** What is planed off at both edges and the centre, and the flat lifter put under; null for plates. */
  readonly planing: { readonly toe: Profile; readonly heel: Profile; readonly lifterMm: Mm } | null;
  readonly screws: ScrewsPlan | null;
  readonly rout: { readonly toe: Pair; readonly heel: Pair } | null;
  readonly lugLeft: { readonly toe: Pair; readonly heel: Pair } | null;
  readonly standHeightMm: Mm | null;
  readonly wantedStand: WantedStand | null;
  /** Null for those who do not race. */
  readonly racing: RacingPlan | null;
  readonly conforms: boolean | null;
  readonly unchecked: readonly string[];
  readonly failures: readonly {
    readonly where: string;
    readonly is: number;
    readonly min: number;
    readonly max: number;
  }[];
}

export interface ForeAftPlan {
  readonly rampDeg: Deg | null;
  readonly deltaDeg: Deg | null;
  readonly netRampDeg: Deg | null;
  readonly netForwardLeanDeg: Deg | null;
  readonly degPerHeelMm: number | null;
}

/** A place where the shell presses, and whether the bench has worked there since. */
export interface HotSpot {
  readonly spot: string;
  readonly worked: boolean;
}

export interface FitPlan {
  /** The boot's own size. */
  readonly mondoMm: Mm | null;
  /** Length of this foot. */
  readonly footMm: Mm | null;
  /** Length of the longer foot: the Mondopoint of the pair, and the nearest size to it. */
  readonly pairMm: Mm | null;
  readonly wantedMm: Mm | null;
  /** How much longer the boot's size is than this foot; negative: shorter. */
  readonly overMm: Mm | null;
  /** Room behind the heel in the bare shell, and the shop's word for it. */
  readonly shellGapMm: Mm | null;
  readonly band: string | null;
  readonly hotSpots: readonly HotSpot[];
}

export interface SidePlan {
  readonly fit: FitPlan;
  readonly cuff: CuffPlan;
  readonly stance: StancePlan;
  readonly sole: SolePlan;
  readonly foreAft: ForeAftPlan;
}

export const STEP_NAMES = [
  'intake',
  'ready',
  'cuff',
  'stance',
  'cant',
  'sole',
  'binding',
  'handover',
] as const;
export type StepName = (typeof STEP_NAMES)[number];
export type StepStatus = 'blocked' | 'ready' | 'waiting' | 'done' | 'stale' | 'waived';

export interface Step {
  readonly step: StepName;
  /** Absent for what is done once for the pair. */
  readonly side?: Side;
  readonly status: StepStatus;
  readonly because: readonly string[];
}

export interface NextAction {
  readonly role: Exclude<Role, 'server'>;
  readonly side?: Side;
  /** The kind of fact that would do it. */
  readonly do: string;
  /** For `ready.checked`: which item. */
  readonly item?: string;
  readonly text: string;
}

/** Signal words by the definitions of ANSI Z535 and ISO 3864: warning, caution, notice. */
export interface Caution {
  readonly level: 'warning' | 'caution' | 'notice';
  readonly step: StepName;
  readonly side?: Side;
  readonly text: string;
}

export interface Problem {
  /** The fact at fault; absent where it is something missing. */
  readonly fact?: string;
  readonly side?: Side;
  readonly code: string;
  readonly text: string;
}

export type ReasonCode =
  /** Nobody recorded what it is made from. */
  | 'missing'
  /** Two recorded it differently, and neither knew of the other. */
  | 'conflict'
  /** Nobody has read or measured it yet. */
  | 'unread'
  /** It was read, and not as it must be. */
  | 'refused'
  /** What it was read from has changed since. */
  | 'stale'
  /** Something else comes first. */
  | 'blocked'
  /** A press is a bound: no spread, no chance. */
  | 'bound'
  | 'too-narrow'
  | 'contradictory'
  | 'past-limit'
  /** It may not be told before something else is on record. */
  | 'withheld'
  /** Nothing is due there. */
  | 'not-due';

/** Why a field is null. */
export interface Reason {
  readonly code: ReasonCode;
  readonly text: string;
}

export interface Plan {
  readonly format: 'fibula-plan/1';
  readonly sides: { readonly left: SidePlan; readonly right: SidePlan };
  readonly steps: readonly Step[];
  readonly next: readonly NextAction[];
  readonly cautions: readonly Caution[];
  readonly problems: readonly Problem[];
  /** Why each null in `sides` is null, by its path: `sides.left.cuff.target`. */
  readonly reasons: Readonly<Record<string, Reason>>;
}

/** What is to be done, and what is wrong with the record: a plan without its numbers. */
export type Course = Pick<Plan, 'steps' | 'next' | 'problems'>;
