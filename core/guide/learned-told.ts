/** What a server tells of the shop's learning: models, their moves, what is far off, how predictions did, and legs over time. */
import type { Side } from '../frame.ts';
import type { Response } from '../maths/learned.ts';
import type { LeftOutBecause, MoveChoice, MoveState } from '../wire.ts';
import type { SeenLeg } from './lessons.ts';

export interface ModelTold extends Response {
  readonly model: string;
  readonly boots: number;
  readonly pairs: number;
}

/** Changes of the gap difference, mm. */
export interface MoveTold {
  readonly predictedMm: number;
  readonly observedMm: number;
  readonly sdMm: number;
  readonly state: MoveState;
}

export interface DecisionTold {
  readonly choice: MoveChoice['choice'];
  readonly reason: LeftOutBecause | null;
  /** Name of the station at which it was decided. */
  readonly by: string;
  readonly atMs: number;
}

/** A move that answered far otherwise than foretold. */
export interface FarOffTold extends MoveTold {
  readonly session: string;
  /** Ids of the readings before and after, which name the move. */
  readonly before: string;
  readonly after: string;
  readonly side: Side;
  readonly model: string;
  readonly ticket: string | null;
  readonly openedMs: number;
  /** Oldest first. */
  readonly decisions: readonly DecisionTold[];
}

export interface ScoreTold {
  /** `2026-01`, by the server's clock, UTC. */
  readonly month: string;
  /** Cuffs that were moved and closed, and how many of them were even after the first move. */
  readonly moved: number;
  readonly firstEnough: number;
  /** Moves read before and after, and of how many the change lay in the interval that was foretold. */
  readonly pairs: number;
  readonly held80: number;
  readonly held90: number;
}

export interface LearnedTold {
  readonly shop: Response;
  readonly models: readonly ModelTold[];
  readonly farOff: readonly FarOffTold[];
  /** Newest first. */
  readonly scores: readonly ScoreTold[];
}

/** One leg as one session left it. */
export interface LegTold {
  readonly session: string;
  readonly side: Side;
  /** As the boot was described. */
  readonly model: string;
  readonly tag: string | null;
  readonly openedMs: number;
  /** Null where no reading of that boot says it. */
  readonly leg: SeenLeg | null;
  readonly ticket: string | null;
}
