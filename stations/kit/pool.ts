/** The sessions a page has open: one object each, kept for as long as it is shown or has something to send. */
import type { Session } from './session.ts';

export class SessionPool {
  readonly #open = new Map<string, Session>();

  get(id: string, make: () => Session): Session {
    const open = this.#open.get(id);
    if (open) return open;
    const session = make();
    this.#open.set(id, session);
    return session;
  }

  /** Lets go of a session unless it still has something to send. */
  release(id: string): void {
    const session = this.#open.get(id);
    if (!session || session.waiting > 0) return;
    this.#open.delete(id);
    session.close();
  }

  closeAll(): void {
    for (const session of this.#open.values()) session.close();
    this.#open.clear();
  }
}
