/** What the desk is shown of the shop's learning: models, their moves, pairs that are far off, and how predictions did. */
import { sameModel } from '../core/index.ts';
import type { DecisionTold, FarOffTold, LearnedTold, MoveTold, ScoreTold, Settings } from '../core/index.ts';
import { BOUND } from './limits.ts';
import type { Learned } from './learned.ts';
import type { Db } from './schema.ts';

/** Quantiles of the standard normal for 80 and 90 %. Source: any table of it. */
const [Z80, Z90] = [1.281552, 1.644854];
const MONTH = `strftime('%Y-%m', opened_ms / 1000, 'unixepoch')`;
const OFF = 'abs(observed_mm - predicted_mm)';
const MOVE = 'predicted_mm AS predictedMm, observed_mm AS observedMm, sd_mm AS sdMm, state';

export class LearnedReport {
  readonly #learned: Learned;
  readonly #sql;

  constructor(db: Db, learned: Learned) {
    this.#learned = learned;
    this.#sql = {
      moves: db.prepare<[string, number], MoveTold>(
        `SELECT ${MOVE} FROM lesson_pairs WHERE model = ? ORDER BY opened_ms DESC LIMIT ?`,
      ),
      farOff: db.prepare<[number], Omit<FarOffTold, 'decisions'>>(
        `SELECT p.session, p.side, p.before, p.after, b.name AS model, p.opened_ms AS openedMs, ${MOVE},
           (SELECT json_extract(job, '$.ticket') FROM documents WHERE documents.session = p.session
            ORDER BY generation DESC LIMIT 1) AS ticket
         FROM lesson_pairs AS p JOIN lesson_boots AS b ON b.session = p.session AND b.side = p.side
         WHERE p.state != 'used' ORDER BY p.state != 'asked', p.opened_ms DESC LIMIT ?`,
      ),
      decisions: db.prepare<[string, string, string], DecisionTold>(
        `SELECT choice, reason, name AS "by", decided_ms AS atMs FROM lesson_choices
         WHERE session = ? AND before = ? AND after = ? ORDER BY id`,
      ),
      pairs: db.prepare<[], { month: string; pairs: number; held80: number; held90: number }>(
        `SELECT ${MONTH} AS month, count(*) AS pairs, sum(${OFF} <= ${Z80} * sd_mm) AS held80,
           sum(${OFF} <= ${Z90} * sd_mm) AS held90 FROM lesson_pairs WHERE state != 'out' GROUP BY month`,
      ),
      firsts: db.prepare<[], { month: string; moved: number; firstEnough: number }>(
        `SELECT ${MONTH} AS month, count(*) AS moved, sum(first_enough) AS firstEnough FROM lesson_boots
         WHERE first_enough IS NOT NULL GROUP BY month`,
      ),
    };
  }

  report(priors: Pick<Settings, 'responsePriorSd' | 'bootSpreadSd'>): LearnedTold {
    const { shop, models } = this.#learned.models(priors);
    return {
      shop,
      models: models.slice(0, BOUND.modelsShown),
      farOff: this.#sql.farOff.all(BOUND.farOffShown).map((pair) => ({
        ...pair,
        decisions: this.#sql.decisions.all(pair.session, pair.before, pair.after),
      })),
      scores: this.#scores(),
    };
  }

  /** The newest moves of one model. */
  moves(model: string): MoveTold[] {
    return this.#sql.moves.all(sameModel(model), BOUND.movesShown);
  }

  #scores(): ScoreTold[] {
    const none = { moved: 0, firstEnough: 0, pairs: 0, held80: 0, held90: 0 };
    const months = new Map<string, ScoreTold>();
    for (const row of [...this.#sql.pairs.all(), ...this.#sql.firsts.all()])
      months.set(row.month, { ...none, ...months.get(row.month), ...row });
    return [...months.values()].sort((a, b) => (a.month < b.month ? 1 : -1)).slice(0, BOUND.monthsShown);
  }
}
