/**
 * The gate: what is done with an update a station sent, decided before anything is applied. A pure decision over
 * the bytes, the document as it is, and who sends; `room.ts` carries it out.
 *
 * Each rule is small and named, and each closes one way of writing into the document something that is not an
 * honest entry. They run in order; the first that objects decides.
 */
import { entryRules } from './gate-entries.ts';
import type { Draft, GateView, GateWriter, Rule, Verdict } from './gate-rule.ts';
import { updateRules } from './gate-update.ts';

export type Gate = (bytes: Uint8Array, view: GateView, writer: GateWriter) => Verdict;

export const RULES: readonly Rule[] = [...updateRules, ...entryRules];

/** The gate that holds `rules`. Only a test asks for fewer than all. */
export const makeGate =
  (rules: readonly Rule[]): Gate =>
  (bytes, view, writer) => {
    const draft: Draft = {
      bytes,
      view,
      writer,
      structs: [],
      hasDeletes: false,
      ordered: [],
      fresh: [],
      facts: [],
    };
    for (const rule of rules) {
      const verdict = rule.judge(draft);
      if (verdict) return verdict;
    }
    const clocks = new Map(draft.fresh.map(({ client, clock, values }) => [client, clock + values.length]));
    return { do: 'take', facts: draft.facts, clocks };
  };

export const gate: Gate = makeGate(RULES);
