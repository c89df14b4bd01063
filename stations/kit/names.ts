/** Names behind references: asked for in the background, kept while the page lives and never on the device. */
import { createSubscriber } from 'svelte/reactivity';
import { api } from './api.ts';

export class Names {
  readonly #names = new Map<string, string>();
  readonly #asked = new Set<string>();
  readonly #tell = new Set<() => void>();
  readonly #subscribe = createSubscriber((update) => {
    this.#tell.add(update);
    return () => this.#tell.delete(update);
  });

  /** Undefined until it is known. */
  of(ref: string): string | undefined {
    this.#subscribe();
    if (!this.#asked.has(ref)) {
      this.#asked.add(ref);
      void api.person(ref).then((answer) => {
        if (answer.ok) this.know(ref, answer.value.name);
        else this.#asked.delete(ref);
      });
    }
    return this.#names.get(ref);
  }

  /** The name was erased: it is asked for anew when somebody looks, and not there. */
  forget(ref: string): void {
    this.#asked.delete(ref);
    this.#names.delete(ref);
    for (const update of this.#tell) update();
  }

  know(ref: string, name: string): void {
    this.#asked.add(ref);
    this.#names.set(ref, name);
    for (const update of this.#tell) update();
  }
}
