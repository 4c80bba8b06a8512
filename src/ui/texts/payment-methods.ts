import { text } from '../../words/compiled/window/bill.ts';

/** The name of a payment method; one that the shop added is shown as typed. */
export function methodName(method: string): string {
  return Object.entries(text.methods).find(([code]) => code === method)?.[1] ?? method;
}

/** The code of a typed payment method: `Cash` becomes `cash`, a new one stays as typed. */
export function methodCode(typed: string): string {
  const name = typed.trim();
  const same = (known: string): boolean =>
    known.localeCompare(name, undefined, { sensitivity: 'accent' }) === 0;
  return Object.entries(text.methods).find(([, known]) => same(known))?.[0] ?? name;
}
