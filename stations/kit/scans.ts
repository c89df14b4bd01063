/**
 * A scanner that types: a code and Enter, wherever the focus is. Where no field has the focus, all that is typed before an
 * Enter is a code. In a field it is one only when it is known to be one; the field is then as it was before.
 */

/** Who scans waits for nobody; who types may rest this long between two keys. */
const REST_MS = 1_500;
const LEAST = 2;
/** Such a number is what a calliper types. */
const READING = /^[+-]?\d{0,4}([.,]\d*)?$/;

type Field = HTMLInputElement | HTMLTextAreaElement;

const fieldOf = (target: EventTarget | null): Field | null =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && !/^(radio|checkbox|button|submit|range|file)$/.test(target.type))
    ? target
    : null;

/** A field for numbers says so to an on-screen keyboard, or keeps it away for the page's own. */
const isNumber = ({ inputMode }: Field): boolean => inputMode === 'decimal' || inputMode === 'none';

export interface ScanListener {
  /** A code is one of ours: asked only for what was typed into a field. */
  readonly isKnown: (code: string) => boolean;
  readonly onScan: (code: string) => void;
}

/** Keys that say nothing by themselves. */
const SILENT = new Set(['Shift', 'CapsLock', 'AltGraph', 'Unidentified', 'Dead', 'NumLock']);

export class Scans {
  readonly #to: ScanListener;
  readonly #now: () => number;
  #typed = '';
  #lastMs = -Infinity;
  #field: Field | null = null;
  /** What stood in the field before. */
  #before = '';

  constructor(to: ScanListener, now: () => number = () => performance.now()) {
    this.#to = to;
    this.#now = now;
  }

  /** For the window, before anybody else hears the key. */
  readonly keydown = (event: KeyboardEvent): void => {
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return this.#forget();
    const field = fieldOf(event.target);
    // A field that is made for a code takes it by itself.
    if (field?.dataset['code'] !== undefined) return this.#forget();
    const late = this.#now() - this.#lastMs > REST_MS;
    if (late || field !== this.#field) this.#forget();
    if (event.key === 'Enter') return this.#enter(event, field);
    if (event.key.length !== 1) {
      if (!SILENT.has(event.key)) this.#forget();
      return;
    }
    // The first blank is a press on a button, not a code.
    if (!field && event.key === ' ' && this.#typed === '') return;
    if (this.#typed === '') [this.#field, this.#before] = [field, field?.value ?? ''];
    if (!field && event.key === ' ') swallow(event);
    this.#typed += event.key;
    this.#lastMs = this.#now();
  };

  #enter(event: KeyboardEvent, field: Field | null): void {
    const code = this.#typed.trim();
    const before = this.#before;
    this.#forget();
    if (code.length < LEAST) return;
    if (field) {
      if ((isNumber(field) && READING.test(code)) || !this.#to.isKnown(code)) return;
      field.value = before;
      field.dispatchEvent(new Event('input', { bubbles: true }));
    }
    swallow(event);
    this.#to.onScan(code);
  }

  #forget(): void {
    this.#typed = '';
    this.#field = null;
    this.#lastMs = -Infinity;
  }
}

function swallow(event: Event): void {
  event.preventDefault();
  event.stopImmediatePropagation();
}
