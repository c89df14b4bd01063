/**
 * How boots answer a move, learned from the moves that were read before and after: one boot from its readings, and
 * shop, model and boot from all boots together.
 *
 * Three levels, all normal: the shop's mean `μ ~ N(k, shopSd²)`, a model's mean `κ ~ N(μ, τ²)`, a boot's response
 * `β ~ N(κ, bootSd²)`. Given τ everything is conjugate. τ itself is not known: it has a half-normal prior and is
 * summed out on a grid, each value weighed by how well it foretells what the models did.
 *
 * Source: Gelman et al., Bayesian Data Analysis, 3rd ed., sections 5.4 and 5.5.
 */
import type { Mm } from '../units.ts';

/** The mean of all readings at one setting of the pivots, in the order of the settings. */
export interface ReadStop {
  /** Geometric shift of the cuff centre at this setting, mm lateral of neutral. */
  readonly shiftMm: Mm;
  readonly biasMm: Mm;
  /** Standard deviation of that mean, mm. */
  readonly sdMm: Mm;
  /** Variance that the bias may have changed by, beside the move, since the stop before, mm²: 0, or Infinity to part them. */
  readonly jump: number;
}

/** What was measured of one response: its value, and one over its variance. */
export interface ResponseSeen {
  readonly k: number;
  readonly weight: number;
}

export interface Response {
  readonly k: number;
  readonly sd: number;
}

/** Variances of a place and a response that nobody knows anything of: flat, for numbers of this size. */
const FLAT = { bias: 1e8, response: 1e6 };

/**
 * A boot's response from the stops of one leg in it, `D = L − 2·k·x + error` with the leg's `L = 2m` not known
 * (`estimate.ts`): one step of a linear filter for each stop. Null where no two stops can be held against each other.
 *
 * 8 mm at neutral and 2 mm after 4 mm of shift, each to 2.121 mm: k = 6/8 = 0.75, of weight 8²/9 = 7.11.
 */
export function measuredResponse(stops: readonly ReadStop[]): ResponseSeen | null {
  let [bias, k] = [0, 0];
  let [bb, bk, kk] = [FLAT.bias, 0, FLAT.response];
  for (const { shiftMm, biasMm, sdMm, jump } of stops) {
    if (jump === Infinity) [bias, bb, bk] = [0, FLAT.bias, 0];
    else bb += jump;
    const x = -2 * shiftMm;
    const [gb, gk] = [bb + bk * x, bk + kk * x];
    const spread = gb + gk * x + sdMm ** 2;
    const off = biasMm - bias - x * k;
    bias += (gb / spread) * off;
    k += (gk / spread) * off;
    bb -= (gb * gb) / spread;
    bk -= (gb * gk) / spread;
    kk -= (gk * gk) / spread;
  }
  const weight = 1 / kk - 1 / FLAT.response;
  // What rounding leaves of the flat prior is no evidence.
  return weight > 1e-4 ? { k: k / kk / weight, weight } : null;
}

/** What one move changed, held against what was foretold of it. Changes of bias in mm, medial less lateral gap. */
export interface MoveSeen {
  readonly predictedMm: number;
  readonly observedMm: number;
  /** Deviation of what is read about what is foretold: the response's, and the error of both readings. */
  readonly sdMm: number;
}

/** A change read this many deviations from the one foretold is asked about: of honest pairs 1 in 370. */
export const FAR_OFF = 3;

/**
 * A move from one stop to the next: `Δ = −2·k·(x₂ − x₁)`, of deviation `√((2·(x₂ − x₁)·sd)² + s₁² + s₂²)`.
 * 4 mm of shift at k = 1 ± 0.2, both read to 2.121 mm: −8 ± 3.4 mm.
 */
export function moveSeen(before: ReadStop, after: ReadStop, response: Response): MoveSeen {
  const per = -2 * (after.shiftMm - before.shiftMm);
  return {
    predictedMm: per * response.k,
    observedMm: after.biasMm - before.biasMm,
    sdMm: Math.hypot(per * response.sd, before.sdMm, after.sdMm),
  };
}

export const isFarOff = ({ predictedMm, observedMm, sdMm }: MoveSeen): boolean =>
  Math.abs(observedMm - predictedMm) > FAR_OFF * sdMm;

/**
 * Variance beside the move, mm², with which a pair that is far off stands no more than `FAR_OFF` deviations off: it
 * counts for something until a person has decided on it, and for no more than the oddest honest pair.
 */
export const doubtOf = ({ predictedMm, observedMm, sdMm }: MoveSeen): number =>
  Math.max(0, ((observedMm - predictedMm) / FAR_OFF) ** 2 - sdMm ** 2);

export interface Spreads {
  /** Mean of the shop's mean before any evidence. */
  readonly k: number;
  readonly shopSd: number;
  /** Scale of the half-normal prior of the spread between models; the mean of its square is the scale's square. */
  readonly modelSd: number;
  readonly bootSd: number;
}

/**
 * The parts of what is believed before any evidence: half of the variance of a model's response is the shop's, half
 * the model's own. How it is halved is from memory.
 */
export const spreadsOf = (responsePriorSd: number, bootSpreadSd: number): Spreads => ({
  k: 1,
  shopSd: responsePriorSd / Math.SQRT2,
  modelSd: responsePriorSd / Math.SQRT2,
  bootSd: bootSpreadSd,
});

/** Below this weight, a deviation of ten thousand, nothing was measured. */
const NOTHING = 1e-8;

/** Several measurements of one response, weighed. */
export const together = (measured: readonly ResponseSeen[]): ResponseSeen => {
  const weight = measured.reduce((sum, m) => sum + m.weight, 0);
  if (weight < NOTHING) return { k: 0, weight: 0 };
  return { k: measured.reduce((sum, m) => sum + m.k * m.weight, 0) / weight, weight };
};

/** What one boot says of its model's mean: its own measurement, widened by the spread between boots. */
export const ofModel = ({ k, weight }: ResponseSeen, bootSd: number): ResponseSeen => ({
  k,
  weight: weight > 0 ? 1 / (bootSd ** 2 + 1 / weight) : 0,
});

const combine = (mean: number, variance: number, { k, weight }: ResponseSeen): [number, number] => {
  const v = 1 / (1 / variance + weight);
  return [v * (mean / variance + k * weight), v];
};

/** Middles of the steps of the grid of τ, in scales of its prior: a twentieth each, up to five. */
const GRID = Array.from({ length: 100 }, (_, i) => 0.025 + i * 0.05);

/** One value of τ, with the shop's mean given it and its weight. */
interface Level {
  readonly tau2: number;
  readonly mean: number;
  readonly variance: number;
  readonly log: number;
}

/** Means and deviations at each level, from what each model's boots say together. */
export class Hierarchy {
  readonly #spreads: Spreads;
  readonly #models: ReadonlyMap<string, ResponseSeen>;
  readonly #levels: readonly Level[];

  /** @param models for each model, `together` of `ofModel` of its boots */
  constructor(spreads: Spreads, models: ReadonlyMap<string, ResponseSeen>) {
    this.#spreads = spreads;
    this.#models = models;
    const told = [...models.values()].filter(({ weight }) => weight > 0);
    this.#levels = GRID.map((step) => {
      const tau2 = (step * spreads.modelSd) ** 2;
      let [mean, variance, log] = [spreads.k, spreads.shopSd ** 2, (-step * step) / 2];
      for (const { k, weight } of told) {
        const v = tau2 + 1 / weight;
        log -= (Math.log(variance + v) + (k - mean) ** 2 / (variance + v)) / 2;
        [mean, variance] = combine(mean, variance, { k, weight: 1 / v });
      }
      return { tau2, mean, variance, log };
    });
  }

  /** The mean of all models, met or not. */
  shop(): Response {
    return this.#mixed(({ mean, variance, log }) => [mean, variance, log]);
  }

  /** The mean of one model's boots; of a model nobody has met, what the shop's others say. */
  model(model: string): Response {
    return this.#mixed((level) => [...this.#modelAt(level, model), level.log]);
  }

  /** One boot of a model. @param own what was measured in this boot, which must not be in `models` as well */
  boot(model: string, own: ResponseSeen | null): Response {
    return this.#mixed((level) => {
      const [mean, variance] = this.#modelAt(level, model);
      const before = variance + this.#spreads.bootSd ** 2;
      if (!own || own.weight <= 0) return [mean, before, level.log];
      const seen = before + 1 / own.weight;
      const log = level.log - (Math.log(seen) + (own.k - mean) ** 2 / seen) / 2;
      return [...combine(mean, before, own), log];
    });
  }

  /** Given τ: the shop's mean without this model, spread by τ, then this model's boots. */
  #modelAt({ tau2, mean, variance }: Level, model: string): [number, number] {
    const own = this.#models.get(model);
    if (!own || own.weight <= 0) return [mean, variance + tau2];
    // The shop's mean holds this model already: it is taken out again before it is the model's prior.
    const held = 1 / (tau2 + 1 / own.weight);
    const rest = 1 / variance - held;
    const without = (mean / variance - own.k * held) / rest;
    return combine(without, 1 / rest + tau2, own);
  }

  /** Mean and deviation of the mixture over τ. */
  #mixed(at: (level: Level) => readonly [number, number, number]): Response {
    const parts = this.#levels.map(at);
    const top = Math.max(...parts.map(([, , log]) => log));
    let [total, sum, squares] = [0, 0, 0];
    for (const [mean, variance, log] of parts) {
      const weight = Math.exp(log - top);
      total += weight;
      sum += weight * mean;
      squares += weight * (variance + mean * mean);
    }
    const k = sum / total;
    return { k, sd: Math.sqrt(Math.max(0, squares / total - k * k)) };
  }
}

/** One boot's measured response, and which boot it is. */
export interface BootSeen extends ResponseSeen {
  readonly model: string;
  readonly boot: string;
}

/**
 * Shop, model and boot from all boots that were measured.
 *
 * Two boots of one model, both at 0.8 ± 0.1, default spreads: the shop 0.90 ± 0.11, that model 0.85 ± 0.09, a third
 * boot of it 0.85 ± 0.13.
 */
export function learnFrom(
  spreads: Spreads,
  boots: readonly BootSeen[],
  ask: { readonly model: string; readonly boot: string },
): { readonly shop: Response; readonly model: Response; readonly boot: Response } {
  const isAsked = ({ model, boot }: BootSeen) => model === ask.model && boot === ask.boot;
  const all = hierarchyOf(spreads, boots);
  const others = hierarchyOf(
    spreads,
    boots.filter((seen) => !isAsked(seen)),
  );
  return {
    shop: all.shop(),
    model: all.model(ask.model),
    boot: others.boot(ask.model, together(boots.filter(isAsked))),
  };
}

function hierarchyOf(spreads: Spreads, seen: readonly BootSeen[]): Hierarchy {
  const boots = new Map<string, BootSeen[]>();
  for (const one of seen) {
    const key = JSON.stringify([one.model, one.boot]);
    boots.set(key, [...(boots.get(key) ?? []), one]);
  }
  const models = new Map<string, ResponseSeen>();
  for (const its of boots.values()) {
    const { model } = its[0]!;
    const of = ofModel(together(its), spreads.bootSd);
    models.set(model, together([models.get(model) ?? { k: 0, weight: 0 }, of]));
  }
  return new Hierarchy(spreads, models);
}
