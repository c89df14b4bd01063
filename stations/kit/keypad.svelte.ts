/** The page's one keypad: which field it types into, while it is there. */

export interface Typing {
  readonly input: HTMLInputElement;
  readonly label: string;
  /** Below zero is allowed there. */
  readonly signed: boolean;
}

/** Longer than a tap takes: what is tapped next must not move away under the finger. */
const LINGER_MS = 300;

/** What touched the page last: a finger wants the keypad, a keyboard and a mouse do not. */
let finger = false;
/** When the glass was let go of; while something is on it, never. */
let letGoMs = -Infinity;
if (typeof addEventListener === 'function') {
  const down = ({ pointerType }: PointerEvent) => {
    finger = pointerType === 'touch';
    letGoMs = Infinity;
  };
  const up = () => (letGoMs = performance.now());
  addEventListener('pointerdown', down, true);
  addEventListener('pointerup', up, true);
  addEventListener('pointercancel', up, true);
  addEventListener('keydown', () => (finger = false), true);
}
/** No tap is under way. Its click comes a moment after the finger has left. */
const isStill = (): boolean => performance.now() - letGoMs >= LINGER_MS;

class Keypad {
  #coming = false;
  #typing = $state.raw<Typing | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Its part of the page has come. Until then, and if it never does, the device's own keyboard is asked for. */
  ready = $state(false);

  get typing(): Typing | null {
    return this.#typing;
  }

  /** A number field that gets the focus now gets the keypad with it. */
  get follows(): boolean {
    return this.#typing !== null || this.#coming;
  }

  /** A person who works by touch is led to what is missing, with the keypad at hand. */
  leadTo(input: HTMLInputElement | null | undefined): void {
    if (!input || !finger || !this.ready) return;
    this.#coming = true;
    input.focus();
    this.#coming = false;
  }

  open(typing: Typing): void {
    clearTimeout(this.#timer);
    if (this.#typing?.input !== typing.input) this.#typing = typing;
  }

  /** The focus has left this field. It may be on its way to another one. */
  left(input: HTMLInputElement): void {
    if (this.#typing?.input === input) this.#goWhenStill();
  }

  #goWhenStill(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (isStill() ? this.putAway() : this.#goWhenStill()), LINGER_MS);
  }

  /** The field is no longer on the page. */
  gone(input: HTMLInputElement | null): void {
    if (this.#typing?.input === input) this.putAway();
  }

  putAway(): void {
    clearTimeout(this.#timer);
    this.#typing = null;
  }
}

export const keypad = new Keypad();
