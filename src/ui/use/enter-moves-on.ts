/** Everything that Tab reaches, in page order, except terms that only open an explanation. */
const STOPS = ':is(input, select, textarea, button):not([popovertarget], [tabindex="-1"], :disabled)';

/**
 * Enter in a one-line field moves to the next field instead of submitting an incomplete form; a barcode reader, which
 * ends with Enter, thus fills field after field. Lists that handle Enter themselves are skipped.
 */
export function enterMovesOn(event: KeyboardEvent): void {
  const from = event.target;
  if (event.key !== 'Enter' || event.ctrlKey || event.metaKey || event.defaultPrevented) return;
  if (!(from instanceof HTMLInputElement || from instanceof HTMLSelectElement)) return;
  event.preventDefault();
  focusNext(from);
}

/** Focuses the field after `from` in its form, skipping the other options of its own group. */
export function focusNext(from: Element): void {
  const stops = [...(from.closest('form')?.querySelectorAll<HTMLElement>(STOPS) ?? [])];
  const next = stops.find(
    (one) =>
      (from.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 &&
      !sameGroup(from, one) &&
      one.checkVisibility({ visibilityProperty: true }) &&
      reached(one),
  );
  next?.focus();
}

function sameGroup(from: Element, one: HTMLElement): boolean {
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
