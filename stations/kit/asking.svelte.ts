/**
 * Values that look wrong are asked about in the form that they stand in: its entries are held back until a person has
 * said that they are so. What the core finds odd stands in `core/guide/doubt.ts`.
 */
import { doubtsOf } from '../../core/index.ts';
import type { Doubt, Fact } from '../../core/index.ts';
import type { FactDraft } from './session.ts';

class Asking {
  #doubts = $state.raw<readonly Doubt[]>([]);
  #form = $state.raw<HTMLFormElement | null>(null);
  /** The form that is being entered just now. */
  #entering: HTMLFormElement | null = null;
  /** A person has said that what it holds is so. */
  #kept = false;

  /** What this form is asked; empty when nothing is. */
  of(form: HTMLFormElement | null): readonly Doubt[] {
    return form !== null && form === this.#form ? this.#doubts : [];
  }

  /** A form that can show a question is about to be entered. */
  enter(form: HTMLFormElement): void {
    this.clear();
    this.#entering = form;
    setTimeout(() => {
      this.#entering = null;
      this.#kept = false;
    });
  }

  /** False when these entries are asked about first; the form that they come from shows the question. */
  passes(facts: readonly Fact[], drafts: readonly FactDraft[]): boolean {
    if (!this.#entering || this.#kept) return true;
    const doubts = doubtsOf(facts, drafts);
    if (doubts.length === 0) return true;
    this.#doubts = doubts;
    this.#form = this.#entering;
    return false;
  }

  /** They are so: the form enters once more what it holds. */
  keep(form: HTMLFormElement): void {
    this.clear();
    this.#kept = true;
    form.requestSubmit();
  }

  /** Something else stands in the form by now. */
  clear(): void {
    this.#doubts = [];
    this.#form = null;
  }
}

export const asking = new Asking();
