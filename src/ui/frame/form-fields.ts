/** Reads and fills the fields of the forms on a page, by their accessible names. */

const FIELDS =
  'input:not([type=file], [type=password], [type=hidden], [type=submit], [aria-hidden=true]), select, textarea';
/** Containers whose store saves drafts itself. */
const KEPT_BY_STORE = '[data-draft]';
/** Suffix of the name of a combobox. */
const LIST = ' (list)';

type FieldElement = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** The dialog, form or page that contains an element; null in the window's head and where a store saves the draft. */
export function formOf(element: Element): Element | null {
  if (element.closest(KEPT_BY_STORE)) return null;
  return element.closest('[role=dialog]') ?? element.closest('main form') ?? element.closest('main > *');
}

/** All dialogs, forms and pages in the document, keyed by route and title. */
export function formsNow(): Map<string, Element> {
  const forms = new Map<string, Element>();
  for (const form of document.querySelectorAll('[role=dialog], main form, main > *')) {
    const key = keyOf(form);
    forms.set(forms.has(key) ? freeName(forms, key) : key, form);
  }
  return forms;
}

function keyOf(form: Element): string {
  const place = location.hash.split('?')[0] ?? '';
  const around = form.matches('form') ? form.closest('section') : form;
  const heading = form.matches('main > *') ? '' : around?.querySelector('h2')?.textContent;
  return `${place} ${form.getAttribute('aria-label') ?? heading ?? ''}`.trim();
}

/** The fields of a form in document order, keyed by name; a duplicate name gets a number, `name 2`. */
export function fieldsOf(form: Element): Map<string, FieldElement[]> {
  const fields = new Map<string, FieldElement[]>();
  for (const element of form.querySelectorAll<FieldElement>(FIELDS)) {
    if (formOf(element) !== form) continue;
    const name = nameOf(element);
    const same = fields.get(name);
    if (same && element.type === 'radio' && same[0]?.name === element.name) same.push(element);
    else fields.set(same ? freeName(fields, name) : name, [element]);
  }
  return fields;
}

function freeName(fields: ReadonlyMap<string, unknown>, name: string): string {
  for (let n = 2; ; n++) if (!fields.has(`${name} ${n}`)) return `${name} ${n}`;
}

function nameOf(element: FieldElement): string {
  const legend = element.type === 'radio' ? element.closest('fieldset')?.querySelector('legend') : null;
  const label = legend ?? element.labels?.[0];
  const name = (label?.textContent ?? element.getAttribute('aria-label') ?? element.name).trim();
  return element.role === 'combobox' ? name + LIST : name;
}

/**
 * Whether typing restores the form. A selected list option means more than its text: the same text typed could be
 * another person. An added or removed field shifts the ones after it.
 */
export function areListsTyped(form: Element, before: Record<string, string>): boolean {
  const fields = fieldsOf(form);
  const lists = new Set([...fields.keys(), ...Object.keys(before)].filter((name) => name.endsWith(LIST)));
  return [...lists].every((name) => {
    const field = fields.get(name);
    const origin = field?.[0]?.dataset.origin;
    if (origin === 'picked') return false;
    const isAsBefore = (field ? valueOf(field) : '') === (before[name] ?? '');
    return isAsBefore || (name in before && origin === 'typed');
  });
}

/** The value of a field as text: `on` or empty for a checkbox, the selected value for a group of options. */
export function valueOf(field: readonly FieldElement[]): string {
  const [first] = field;
  if (!(first instanceof HTMLInputElement)) return first?.value ?? '';
  if (first.type === 'checkbox') return first.checked ? 'on' : '';
  if (first.type !== 'radio') return first.value;
  return field.find((one) => one instanceof HTMLInputElement && one.checked)?.value ?? '';
}

/** Sets a field as if typed or chosen; false if the value is not among the options yet. */
export function fill(field: readonly FieldElement[], value: string): boolean {
  const [first] = field;
  const target = first?.type === 'radio' ? field.find((one) => one.value === value) : first;
  if (!target) return false;
  if (target instanceof HTMLSelectElement && ![...target.options].some((one) => one.value === value))
    return false;
  if (target instanceof HTMLInputElement && (target.type === 'radio' || target.type === 'checkbox'))
    target.checked = target.type === 'radio' || value === 'on';
  else target.value = value;
  target.dispatchEvent(new Event('input', { bubbles: true }));
  target.dispatchEvent(new Event('change', { bubbles: true }));
  return true;
}

/** The values of all fields. */
export function valuesOf(form: Element): Record<string, string> {
  return Object.fromEntries([...fieldsOf(form)].map(([name, field]) => [name, valueOf(field)]));
}
