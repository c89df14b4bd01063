/** Keyboards, callipers, scanners and foot switches all type and then press Enter: that goes to the next field. */

const FIELDS = 'input:not([type=hidden]):not(:disabled), select:not(:disabled), textarea:not(:disabled)';
const ACT = 'button[type=submit], button.main';

const scopeOf = (here: HTMLElement): HTMLElement | null => here.closest('form, [data-fields]');

const isRadio = (field: HTMLElement): field is HTMLInputElement & { type: 'radio' } =>
  field instanceof HTMLInputElement && field.type === 'radio';

/** The fields of one scope in their order; of radio buttons that belong together the chosen one, else the first. */
function fieldsOf(scope: HTMLElement): HTMLElement[] {
  const all = [...scope.querySelectorAll<HTMLElement>(FIELDS)].filter((field) => field.offsetParent !== null);
  const alike = (one: HTMLInputElement) =>
    all.filter((field): field is HTMLInputElement => isRadio(field) && field.name === one.name);
  return all.filter((field) => {
    if (!isRadio(field)) return true;
    const group = alike(field);
    return field === (group.find((each) => each.checked) ?? group[0]);
  });
}

function place(fields: readonly HTMLElement[], here: HTMLElement): number {
  return fields.findIndex(
    (field) => field === here || (isRadio(field) && isRadio(here) && field.name === here.name),
  );
}

export function focusOn(field: HTMLElement): void {
  field.focus();
  // Of radio and tick boxes nothing is selected, and it does no harm.
  if (field instanceof HTMLInputElement) field.select();
}

/** The field that comes after this one; of those that `fits` takes, if it is given. */
export function fieldAfter(
  here: HTMLElement,
  fits: (field: HTMLElement) => boolean = () => true,
): HTMLElement | undefined {
  const scope = scopeOf(here);
  if (!scope) return undefined;
  const fields = fieldsOf(scope);
  return fields.slice(place(fields, here) + 1).find(fits);
}

/** After the last field comes the act that they are for: it gets the focus, and nothing is done yet. */
export function goToAct(here: HTMLElement): void {
  const acts = [...(scopeOf(here)?.querySelectorAll<HTMLButtonElement>(ACT) ?? [])];
  const act = acts.find((each) => !each.disabled && each.offsetParent !== null);
  if (act) act.focus();
  else here.blur();
}

/**
 * Moves on to the next field of the same form; on the last one Enter does what a form does, and where there is none goes
 * to the act. A key that is held down, or a foot that stays on its switch, is one Enter.
 */
export function enterIsNext(event: KeyboardEvent): void {
  if (event.key !== 'Enter' || event.isComposing) return;
  if (event.repeat) return event.preventDefault();
  const here = event.currentTarget as HTMLElement;
  const next = fieldAfter(here);
  if (!next && scopeOf(here) instanceof HTMLFormElement) return;
  event.preventDefault();
  if (next) focusOn(next);
  else goToAct(here);
}
