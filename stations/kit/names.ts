/** Names behind references: asked for in the background, kept while the page lives and never on the device. */
import { createSubscriber } from 'svelte/reactivity';
import { api } from './api.ts';

export class Names {
  readonly #people = new Map<string, { readonly name: string; readonly language?: string | undefined }>();
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
        if (answer.ok) this.know(ref, answer.value.name, answer.value.language ?? undefined);
        else this.#asked.delete(ref);
      });
    }
    return this.#people.get(ref)?.name;
  }

  /** What this person speaks, as the intake noted it; undefined until it is known. */
  languageOf(ref: string): string | undefined {
    this.of(ref);
    return this.#people.get(ref)?.language;
  }

  /** The name was erased: it is asked for anew when somebody looks, and not there. */
  forget(ref: string): void {
    this.#asked.delete(ref);
    this.#people.delete(ref);
    for (const update of this.#tell) update();
  }

  /** Without a language the name is shown at once, and the rest is asked for when somebody looks. */
  know(ref: string, name: string, language?: string): void {
    if (language !== undefined) this.#asked.add(ref);
    this.#people.set(ref, { name, language: language ?? this.#people.get(ref)?.language });
    for (const update of this.#tell) update();
  }
}
