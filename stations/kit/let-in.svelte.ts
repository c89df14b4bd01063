/** Asking the desk to let this browser back in: one request, looked after until it is answered or has ended. */
import { ask } from './api.ts';
import type { Me } from './api.ts';
import { noInWords } from './no.ts';
import { letIn } from './words/revoked.ts';

export type LetInState = 'idle' | 'waiting' | 'refused' | 'gone' | 'failed';

type Claim = { readonly state: 'waiting' | 'refused' | 'gone' } | { readonly state: 'in'; readonly me: Me };

const EVERY_MS = 2_000;

export class LetInRequest {
  #state = $state<LetInState>('idle');
  #number = $state<string | null>(null);
  /** The server's own sentence when it did not hear the request. */
  #problem = $state<string | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #onIn: (me: Me) => void;

  constructor(onIn: (me: Me) => void) {
    this.#onIn = onIn;
  }

  get state(): LetInState {
    return this.#state;
  }

  /** Four digits, to be compared with those at the desk. */
  get number(): string | null {
    return this.#number;
  }

  get problem(): string | null {
    return this.#problem;
  }

  async begin(device: string): Promise<void> {
    this.stop();
    const answer = await ask<{ secret: string; number: string }>('POST', '/api/let-in', { device });
    if (!answer.ok) {
      this.#state = 'failed';
      this.#problem = await noInWords(answer.error, letIn.unreachable);
      return;
    }
    this.#state = 'waiting';
    this.#number = answer.value.number;
    this.#look(answer.value.secret);
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#state = 'idle';
    this.#number = null;
    this.#problem = null;
  }

  #look(secret: string): void {
    this.#timer = setTimeout(() => void this.#claim(secret), EVERY_MS);
  }

  async #claim(secret: string): Promise<void> {
    const mine = this.#timer;
    const answer = await ask<Claim>('POST', '/api/let-in/claim', { secret });
    const claim = answer.ok ? answer.value : null;
    if (claim?.state === 'in') return this.#onIn(claim.me);
    if (this.#timer !== mine) return; // stopped, or asked anew, while the answer was on its way
    if (claim === null || claim.state === 'waiting') return this.#look(secret);
    this.#state = claim.state;
    this.#number = null;
  }
}
