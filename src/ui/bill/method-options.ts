import { text } from '../../words/compiled/window/bill.ts';
import { methodName } from '../texts/payment-methods.ts';
import type { ChoiceOption } from '../parts/index.ts';

/**
 * The shop's payment methods as options. Each has a key: the first letter of its name that is not yet taken.
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

/** The label of a payment's reference field; null if the method has no reference. */
export function referenceLabel(method: string): string | null {
  if (method === 'cash') return null;
  return method === 'check' ? text.checkNumber : text.reference;
}
