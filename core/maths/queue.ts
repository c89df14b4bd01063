/**
 * A station with c hands, random arrivals and exponential service times (M/M/c), in closed form: what the forecast
 * is checked against, and a first idea of how many hands a station needs.
 *
 * Booked work of similar length waits less than this. Times are in the unit that the rates are told in.
 * Source: Erlang's B and C formulas and Little's law, as in any text on queues.
 */

/** The hands of one station: enough for any shop, and few enough that no sum overflows. */
export const MOST_HANDS = 200;

export type Waiting =
  | {
      readonly stable: true;
      /** Share of the time that a hand is busy, λ/(c·μ). */
      readonly utilisation: number;
      /** Chance that nobody is there. */
      readonly emptyChance: number;
      /** Chance that an arrival waits: Erlang's C. */
      readonly waitChance: number;
      /** Mean number that wait, and that are there: Lq and L. */
      readonly waiting: number;
      readonly present: number;
      /** Mean time of waiting, and of being there: Wq and W. */
      readonly waitTime: number;
      readonly time: number;
    }
  /** Work comes in faster than it is done: the queue grows for ever. */
  | { readonly stable: false; readonly utilisation: number };

/** Erlang's B: the share turned away if nobody could wait. `B_k = a·B_{k−1}/(k + a·B_{k−1})`, load a = λ/μ. */
function lost(load: number, hands: number): number {
  let b = 1;
  for (let k = 1; k <= hands; k++) b = (load * b) / (k + load * b);
  return b;
}

/** Chance that nobody is there: 1 over the sum of all states' weights, `Σ_{k<c} aᵏ/k! + aᶜ/c!·c/(c − a)`. */
function empty(load: number, hands: number): number {
  let term = 1;
  let sum = 0;
  for (let k = 0; k < hands; k++) {
    sum += term;
    term *= load / (k + 1);
  }
  return 1 / (sum + (term * hands) / (hands - load));
}

/**
 * @param arrivals λ ≥ 0, jobs a unit of time
 * @param service μ > 0, jobs a unit of time that one hand gets done
 * @param hands c, a whole number from 1 to `MOST_HANDS`
 *
 * λ = 2, μ = 3 an hour and two hands: a sixth of the jobs wait; W is 0.375 h.
 */
export function waiting(arrivals: number, service: number, hands: number): Waiting {
  const load = arrivals / service;
  const utilisation = load / hands;
  if (utilisation >= 1) return { stable: false, utilisation };
  const b = lost(load, hands);
  const waitChance = (hands * b) / (hands - load * (1 - b));
  const waitTime = waitChance / (hands * service - arrivals);
  const time = waitTime + 1 / service;
  return {
    stable: true,
    utilisation,
    emptyChance: empty(load, hands),
    waitChance,
    waiting: arrivals * waitTime,
    present: arrivals * time,
    waitTime,
    time,
  };
}

/** The fewest hands with which at most `mostWaiting` of the arrivals wait, 0 < mostWaiting ≤ 1; null: more than `MOST_HANDS`. */
export function handsFor(arrivals: number, service: number, mostWaiting: number): number | null {
  for (let hands = 1; hands <= MOST_HANDS; hands++) {
    const at = waiting(arrivals, service, hands);
    if (at.stable && at.waitChance <= mostWaiting) return hands;
  }
  return null;
}
