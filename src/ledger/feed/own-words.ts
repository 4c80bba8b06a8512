/** Orders, quotes and bills as JSON without what was typed for one customer only. */
import { REMOVED } from '../../book/privacy/personal-text.ts';
import { FREE_TEXT } from '../../book/privacy/words-of-hunter.ts';

/** Under these keys stand names of products, fats and extras, alone or in a list. */
const NAMES: readonly string[] = ['grindProduct', 'product', 'fat', 'extras'];
/** Under this key stands an object with such names as its keys. */
const NAMED = 'products';

/**
 * Clears free text, and replaces each name that nobody but a customer's order gave.
 * @example withoutOwnWords('{"product":"Pat's hot links","note":"call Pat"}', new Set()) // '{"product":"removed","note":""}'
 */
export function withoutOwnWords(json: string, known: ReadonlySet<string>): string {
  const named = (name: string): string => (known.has(name) ? name : REMOVED);
  const walked = (value: unknown, under: string): unknown => {
    if (typeof value === 'string') return NAMES.includes(under) ? named(value) : value;
    if (Array.isArray(value)) return value.map((one) => walked(one, under));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [
        under === NAMED ? named(key) : key,
        FREE_TEXT.includes(key) && typeof inner === 'string' ? '' : walked(inner, key),
      ]),
    );
  };
  return JSON.stringify(walked(JSON.parse(json), ''));
}
