/** What the keypad's keys do to a field: the same as a person's keys would, at the same place in it. */
import { parseNumber, POINT } from './numbers.ts';

/** The field's own listeners hear of it as of any typing. */
const tell = (input: HTMLInputElement) => input.dispatchEvent(new InputEvent('input', { bubbles: true }));

function put(input: HTMLInputElement, text: string): void {
  input.value = text;
  input.setSelectionRange(text.length, text.length);
  tell(input);
}

/** In the place of what is selected, else at the caret. */
export function typeInto(input: HTMLInputElement, key: string): void {
  const end = input.value.length;
  input.setRangeText(key, input.selectionStart ?? end, input.selectionEnd ?? end, 'end');
  tell(input);
}

/** What is selected, else what stands before the caret. */
export function eraseIn(input: HTMLInputElement): void {
  const end = input.selectionEnd ?? input.value.length;
  const start = input.selectionStart ?? end;
  if (end === 0) return;
  input.setRangeText('', start === end ? start - 1 : start, end, 'end');
  tell(input);
}

export function turnSign(input: HTMLInputElement): void {
  const text = input.value.trim();
  put(input, /^[-−]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, '')}`);
}

/** A whole number gets its half, one with a half loses it; anything finer stays as it is. */
export function turnHalf(input: HTMLInputElement): void {
  const text = input.value.trim() || '0';
  if (/[.,]5$/.test(text)) put(input, text.slice(0, -2));
  else if (Number.isInteger(parseNumber(text))) put(input, `${text.replace(/[.,]0*$/, '')}${POINT}5`);
}
