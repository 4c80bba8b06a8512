/** Inputs and buttons in page order, without those that only open an explanation. */
const STOPS = 'input, select, textarea, button:not([popovertarget])';

/**
 * Enter in a one-line field moves to the next field instead of submitting an incomplete form; a barcode reader,
 * which ends with Enter, so fills field after field. Lists that handled Enter themselves are skipped.
 */
export function enterMovesOn(event: KeyboardEvent): void {
  const from = event.target;
  if (event.key !== 'Enter' || event.ctrlKey || event.metaKey || event.defaultPrevented) return;
  if (!(from instanceof HTMLInputElement || from instanceof HTMLSelectElement)) return;
  event.preventDefault();
  const stops = [...(from.closest('form')?.querySelectorAll<HTMLElement>(STOPS) ?? [])];
  const next = stops
    .slice(stops.indexOf(from) + 1)
    .find((one) => !sameGroup(from, one) && one.offsetParent !== null && reached(one));
  next?.focus();
}

function sameGroup(from: HTMLElement, one: HTMLElement): boolean {
  return (
    from instanceof HTMLInputElement &&
    one instanceof HTMLInputElement &&
    from.type === 'radio' &&
    one.name === from.name
  );
}

/** In a group of radio buttons, Tab and Enter reach the selected one, or the first if none is selected. */
function reached(one: HTMLElement): boolean {
  if (!(one instanceof HTMLInputElement) || one.type !== 'radio') return true;
  const group = [...(one.closest('fieldset')?.querySelectorAll<HTMLInputElement>('input[type=radio]') ?? [])];
  return one === (group.find((radio) => radio.checked) ?? group[0]);
}
