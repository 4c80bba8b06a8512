import { billText as text, methodName } from '../texts/en/bill.ts';
import type { ChoiceOption } from '../parts/index.ts';

/**
 * The shop's payment methods as choices, each with a letter of its name as its key: the first that no method before it has.
 * @example methodOptions(['cash', 'check', 'card']) // keys C, H and A
 */
export function methodOptions(methods: readonly string[]): ChoiceOption<string>[] {
  const used = new Set<string>();
  return methods.map((value) => {
    const label = methodName(value);
    const key = [...label.toUpperCase()].find((letter) => /\p{L}/u.test(letter) && !used.has(letter)) ?? '';
    used.add(key);
    return { value, label, key };
  });
}

/** What the reference of a payment is called; null where it needs none. */
export function referenceLabel(method: string): string | null {
  if (method === 'cash') return null;
  return method === 'check' ? text.checkNumber : text.reference;
}
