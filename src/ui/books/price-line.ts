import type { Brought, PriceLineRow, ProductKind } from '../../bridge/contract.ts';
import { isByProduct } from '../../core/pricing/by-product.ts';
import { parseMoney } from '../../core/values/money.ts';
import { text } from '../../words/compiled/window/books/prices.ts';
import { moneyTyped, withMark } from '../texts/decimal-mark.ts';
import { percentText, readPercent } from '../texts/percent.ts';

/** A price line as text fields, so that invalid input is not lost. */
interface TypedLine {
  code: string;
  label: string;
  basis: string;
  amount: string;
  rate: string;
  unit: 'lb' | 'kg';
  species: string[];
  brought: Brought[];
  /** Codes of products, and names that are not in the list. */
  products: string[];
  kinds: ProductKind[];
  /** Ids. */
  recipes: string[];
  /** Units that it charges for at least; empty: no minimum of its own. */
  least: string;
  fatSource: string;
  tax: string;
  /** For a deposit: a fixed amount, or a fraction of the bill. */
  depositAs: 'sum' | 'share';
}

/** For this basis a negative amount is a discount. */
const MAY_BE_DISCOUNT = ['animal', 'extra'];
const PER_WEIGHT = ['hanging', 'ground', 'product', 'trim', 'fat'];
const MOST_LEAST = 10_000;

/** Whether the basis is a weight and therefore needs a unit. */
export function perWeight(basis: string): boolean {
  return PER_WEIGHT.includes(basis);
}

/** Whether the line is a percentage rather than an amount of money. */
export function asPercent({ basis, depositAs }: Pick<TypedLine, 'basis' | 'depositAs'>): boolean {
  return basis === 'percent' || (basis === 'deposit' && depositAs === 'share');
}

/**
 * Whether the line has its own tax setting. A percentage is taxed like the lines it applies to; a deposit is no
 * charge.
 */
export function hasOwnTax(basis: TypedLine['basis']): boolean {
  return basis !== 'percent' && basis !== 'deposit';
}

/** An empty line, charged per animal. */
export function emptyLine(unit: 'lb' | 'kg'): TypedLine {
  return {
    code: '', label: '', basis: 'animal', amount: '', rate: '', unit,
    species: [], brought: [], products: [], kinds: [], recipes: [], least: '', fatSource: '', tax: '', depositAs: 'sum',
  }; // prettier-ignore
}

/** A line by weight for a product, still without label, price and code. */
export function emptyRow(unit: 'lb' | 'kg'): PriceLineRow {
  return {
    code: '', label: '', basis: 'product', amountMinor: null, rate: null, unit, species: null, brought: null,
    products: [], kinds: [], recipes: [], least: null, fatSource: null, taxRate: 0,
  }; // prettier-ignore
}

/** A stored line as editable text. */
export function typeLine(row: PriceLineRow, unit: 'lb' | 'kg', currency: string): TypedLine {
  return {
    code: row.code,
    label: row.label,
    basis: row.basis,
    amount: row.amountMinor === null ? '' : moneyTyped(row.amountMinor, currency),
    rate: row.rate === null ? '' : percentText(row.rate),
    unit: row.unit ?? unit,
    species: row.species ?? [],
    brought: row.brought ?? [],
    products: [...row.products],
    kinds: [...row.kinds],
    recipes: row.recipes.map(String),
    least: row.least === null ? '' : withMark(String(row.least)),
    fatSource: row.fatSource ?? '',
    tax: row.taxRate === 0 ? '' : percentText(row.taxRate),
    depositAs: row.rate === null ? 'sum' : 'share',
  };
}

export type WrongLine = Partial<
  Record<'label' | 'amount' | 'rate' | 'products' | 'least' | 'fatSource' | 'tax', string>
>;

/**
 * Parses the fields of one line. `wrong` holds a message for each invalid field; `value` is null while there is one.
 * A new line gets a code from its label that is not in `taken`.
 */
export function readLine(
  typed: TypedLine,
  currency: string,
  taken: readonly string[],
): { value: PriceLineRow | null; wrong: WrongLine } {
  const percent = asPercent(typed);
  const amount = percent ? null : moneyOf(typed.amount, currency, MAY_BE_DISCOUNT.includes(typed.basis));
  const rate = percent ? signedPercent(typed.rate) : null;
  const byProduct = isByProduct(typed.basis);
  const least = perWeight(typed.basis) ? leastOf(typed.least) : null;
  const tax = typed.tax.trim() === '' || !hasOwnTax(typed.basis) ? 0 : readPercent(typed.tax);
  const wrong: WrongLine = {
    ...(typed.label.trim() === '' && { label: text.labelProblem }),
    ...(!percent && amount === null && { amount: amountProblem(typed.amount) }),
    ...(percent && rate === null && { rate: text.rateProblem }),
    ...(typed.basis === 'deposit' && rate !== null && rate < 0 && { rate: text.depositProblem }),
    ...(typed.basis === 'fat' && typed.fatSource === '' && { fatSource: text.fatProblem }),
    ...(byProduct &&
      typed.products.length + typed.kinds.length + typed.recipes.length === 0 && {
        products: text.productProblem,
      }),
    ...(least === undefined && { least: text.leastProblem }),
    ...((tax === null || tax > 0.5) && { tax: text.taxProblem }),
  };
  if (Object.keys(wrong).length > 0 || tax === null || least === undefined) return { value: null, wrong };
  return {
    wrong,
    value: {
      code: typed.code || codeFor(typed.label, taken),
      label: typed.label.trim(),
      basis: typed.basis,
      amountMinor: amount,
      rate,
      unit: perWeight(typed.basis) ? typed.unit : null,
      species: typed.species.length > 0 ? typed.species : null,
      brought: typed.brought.length > 0 ? typed.brought : null,
      products: byProduct ? typed.products : [],
      kinds: byProduct ? typed.kinds : [],
      recipes: byProduct ? typed.recipes.map(Number) : [],
      least,
      fatSource: typed.basis === 'fat' ? typed.fatSource : null,
      taxRate: tax,
    },
  };
}

/** Units with at most two decimals; null if empty, undefined if invalid. */
function leastOf(typed: string): number | null | undefined {
  const plain = typed.trim().replace(',', '.');
  if (plain === '') return null;
  const units = /^\d{1,5}(\.\d{1,2})?$/.test(plain) ? Number(plain) : 0;
  return units > 0 && units <= MOST_LEAST ? units : undefined;
}

/** Minor units; null for an invalid amount, or a negative one where no discount is allowed. */
function moneyOf(typed: string, currency: string, mayBeDiscount: boolean): number | null {
  try {
    const minor = parseMoney(typed, currency);
    return minor >= 0 || mayBeDiscount ? minor : null;
  } catch {
    return null;
  }
}

function amountProblem(typed: string): string {
  return /^\s*[-−]/.test(typed) ? text.belowZero : text.amountProblem;
}

function signedPercent(typed: string): number | null {
  const [, sign = '', digits = ''] = /^\s*([-−+]?)\s*(.*)$/.exec(typed) ?? [];
  const share = readPercent(digits);
  return share === null ? null : sign === '-' || sign === '−' ? -share : share;
}

function codeFor(label: string, taken: readonly string[]): string {
  const stem =
    label
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 32) || 'line';
  let code = stem;
  for (let n = 2; taken.includes(code); n++) code = `${stem}-${n}`;
  return code;
}
