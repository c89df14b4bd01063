/** The sessions a page has open: one object each, for as long as it is shown or has something to send. */
import type { Session } from './session.ts';

export class SessionPool {
  readonly #open = new Map<string, Session>();
  /** How many parts of the page show a session. */
  readonly #shown = new Map<string, number>();

  get(id: string, make: () => Session): Session {
    const open = this.#open.get(id);
    if (open) return open;
    const session = make();
    this.#open.set(id, session);
    return session;
  }

  get all(): readonly Session[] {
    return [...this.#open.values()];
  }

  /** Says that a session is shown; call what it returns when it no longer is. */
  keep(id: string): () => void {
    this.#shown.set(id, (this.#shown.get(id) ?? 0) + 1);
    return () => {
      this.#shown.set(id, (this.#shown.get(id) ?? 1) - 1);
      this.tidy(id);
    };
  }

  /** Closes a session that nobody looks at and that has nothing to send. */
  tidy(id: string): void {
    if ((this.#open.get(id)?.waiting ?? 0) === 0) this.putDown(id);
  }

  /** Closes a session that nobody looks at; what it has to send stays on the device. */
  putDown(id: string): void {
    const session = this.#open.get(id);
    if (!session || (this.#shown.get(id) ?? 0) > 0) return;
    this.#open.delete(id);
    this.#shown.delete(id);
    session.close();
  }

  closeAll(): void {
    for (const session of this.#open.values()) session.close();
    this.#open.clear();
    this.#shown.clear();
  }
}
