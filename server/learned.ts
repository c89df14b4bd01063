/** What the shop has learned from all its sessions: how a boot answers, and how well that was foretold. */
import { Hierarchy, ofModel, sameModel, spreadsOf, together } from '../core/index.ts';
import type { BootResponse, ModelTold, ResponseSeen, Settings } from '../core/index.ts';
import { bootKey } from './lessons.ts';
import type { Db } from './schema.ts';

/** A response before a session's own readings, and how many moves of that model it rests on. */
export interface KnownResponse extends BootResponse {
  readonly pairs: number;
}

type Priors = Pick<Settings, 'responsePriorSd' | 'bootSpreadSd'>;

interface BootSum {
  readonly model: string;
  readonly name: string;
  readonly boot: string;
  readonly weight: number;
  readonly sum: number;
  readonly pairs: number;
}

/** One row a boot, by the database: what is held here grows with the models, not with the sessions. */
const BOOT_SUMS = `SELECT model, max(name) AS name, boot, sum(weight) AS weight, sum(weight * k) AS sum,
  sum(pairs) AS pairs FROM lesson_boots WHERE weight > 0 AND session != ? GROUP BY model, boot`;

interface ModelSum {
  readonly name: string;
  seen: ResponseSeen;
  boots: number;
  pairs: number;
}

export class Learned {
  readonly #sums;

  constructor(db: Db) {
    this.#sums = db.prepare<[string], BootSum>(BOOT_SUMS);
  }

  /**
   * How one boot answers, by all sessions but this one. Null where no session has taught anything: then the shop's
   * prior stands as it is.
   */
  responseOf(
    session: string,
    {
      side,
      model,
      tag,
    }: { readonly side: string; readonly model: string; readonly tag?: string | undefined },
    priors: Priors,
  ): KnownResponse | null {
    const key = { model: sameModel(model), boot: bootKey(session, side, tag) };
    let own: ResponseSeen | null = null;
    let ownPairs = 0;
    const models = this.#models(session, priors, (row) => {
      if (row.model !== key.model || row.boot !== key.boot) return false;
      own = { k: row.sum / row.weight, weight: row.weight };
      ownPairs = row.pairs;
      return true;
    });
    if (models.size === 0 && !own) return null;
    const hierarchy = hierarchyOf(models, priors);
    return {
      ...hierarchy.boot(key.model, own),
      pairs: (models.get(key.model)?.pairs ?? 0) + ownPairs,
    };
  }

  /** Every model that was met, most moves first, and the mean of all. */
  models(priors: Priors): { readonly shop: BootResponse; readonly models: readonly ModelTold[] } {
    const models = this.#models('', priors, () => false);
    const hierarchy = hierarchyOf(models, priors);
    return {
      shop: hierarchy.shop(),
      models: [...models]
        .map(([key, { name, boots, pairs }]) => ({ model: name, boots, pairs, ...hierarchy.model(key) }))
        .sort((a, b) => b.pairs - a.pairs || (a.model < b.model ? -1 : 1)),
    };
  }

  #models(except: string, priors: Priors, leaveOut: (row: BootSum) => boolean): Map<string, ModelSum> {
    const models = new Map<string, ModelSum>();
    for (const row of this.#sums.iterate(except)) {
      if (leaveOut(row)) continue;
      const seen = ofModel({ k: row.sum / row.weight, weight: row.weight }, priors.bootSpreadSd);
      const model = models.get(row.model);
      if (!model) models.set(row.model, { name: row.name, seen, boots: 1, pairs: row.pairs });
      else {
        model.seen = together([model.seen, seen]);
        model.boots += 1;
        model.pairs += row.pairs;
      }
    }
    return models;
  }
}

const hierarchyOf = (models: ReadonlyMap<string, ModelSum>, priors: Priors): Hierarchy =>
  new Hierarchy(
    spreadsOf(priors.responsePriorSd, priors.bootSpreadSd),
    new Map([...models].map(([key, { seen }]) => [key, seen])),
  );
