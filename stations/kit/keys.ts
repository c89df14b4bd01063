/** Keyboards, callipers and scanners all type and then press Enter: that goes to the next field. */

const FIELDS = 'input:not([type=hidden]):not(:disabled), select:not(:disabled), textarea:not(:disabled)';

/** Moves on to the next field of the same form; on the last one Enter does what a form does. */
export function enterIsNext(event: KeyboardEvent): void {
  if (event.key !== 'Enter' || event.isComposing) return;
  const here = event.currentTarget as HTMLElement;
  const scope = here.closest('form, [data-fields]');
  if (!scope) return;
  const fields = [...scope.querySelectorAll<HTMLElement>(FIELDS)].filter(
    (field) => field.offsetParent !== null,
  );
  const next = fields[fields.indexOf(here) + 1];
  if (!next) return;
  event.preventDefault();
  next.focus();
  if (next instanceof HTMLInputElement) next.select();
}
