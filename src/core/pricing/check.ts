/** Validates price lines and amounts. */
import { isByProduct } from './by-product.ts';
import type { Amounts, Basis, PriceLine } from './lines.ts';
import { ValidationError } from '../values/validation-error.ts';

const BY_WEIGHT: readonly Basis[] = ['hanging', 'ground', 'product', 'trim', 'fat'];
const NAMED = { fat: 'fatSource', extra: 'extra' } as const;

/** @param index of the line among the price book's @throws ValidationError if the line is invalid */
export function checkLine(line: PriceLine, index: number): void {
  const refuse = (code: string, part: keyof PriceLine): never => {
    throw new ValidationError(code, `lines[${index}].${part}`, { code: line.code });
  };
  if (line.code === '') refuse('price.no-code', 'code');
  if (BY_WEIGHT.includes(line.basis) && !line.unit) refuse('price.no-unit', 'unit');
  const named = line.basis in NAMED && NAMED[line.basis as keyof typeof NAMED];
  if (named && !line[named]) refuse('price.not-named', named);
  const { products = [], kinds = [], recipes = [], least } = line;
  if (isByProduct(line.basis) && products.length + kinds.length + recipes.length === 0)
    refuse('price.not-named', 'products');
  if (least !== undefined && !(least > 0 && Number.isFinite(least) && BY_WEIGHT.includes(line.basis)))
    refuse('price.least', 'least');
  const hasAmount = line.amountMinor !== undefined;
  const hasRate = line.rate !== undefined;
  const wantsRate = line.basis === 'percent' || (line.basis === 'deposit' && !hasAmount);
  if (wantsRate !== hasRate || wantsRate === hasAmount)
    refuse('price.amount-or-rate', wantsRate ? 'rate' : 'amountMinor');
  if (hasAmount && !Number.isSafeInteger(line.amountMinor)) refuse('money.not-whole', 'amountMinor');
  if (hasRate && !Number.isFinite(line.rate)) refuse('number.not-finite', 'rate');
  const notBelowZero = line.basis === 'deposit' || line.basis === 'minimum';
  if (notBelowZero && (line.amountMinor ?? line.rate ?? 0) < 0) refuse('price.negative', 'amountMinor');
  if (line.basis === 'deposit' && (line.rate ?? 0) > 1) refuse('share.out-of-range', 'rate');
  const tax = line.taxRate ?? 0;
  if (!(tax >= 0 && tax <= 1)) refuse('share.out-of-range', 'taxRate');
}

/** @throws ValidationError `number.not-finite`, `amount.negative` */
export function checkAmounts(amounts: Amounts): void {
  checkAmount('animals', amounts.animals ?? 1);
  checkAmount('hangingGrams', amounts.hangingGrams);
  checkAmount('groundGrams', amounts.groundGrams);
  checkAmount('packages', amounts.packages ?? 0);
  for (const kind of ['minutes', 'extras', 'products', 'fats'] as const) {
    const record = amounts[kind];
    for (const code in record) checkAmount(kind, record[code] as number, code);
  }
  for (const code in amounts.made)
    for (const { grams, trimGrams } of amounts.made[code] ?? []) {
      checkAmount('made', grams, code);
      checkAmount('made', trimGrams ?? 0, code);
    }
}

function checkAmount(kind: string, value: number, code?: string): void {
  if (value >= 0 && value < Infinity) return;
  const field = `amounts.${code === undefined ? kind : `${kind}.${code}`}`;
  throw new ValidationError(Number.isFinite(value) ? 'amount.negative' : 'number.not-finite', field);
}
