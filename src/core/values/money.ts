/** Money as text: formatted in the shop's locale, and parsed as people type it. */
import { MAX_MINOR } from './money-sums.ts';
import { ValidationError } from './validation-error.ts';

export { percentOf, roundHalfAwayFromZero, timesRate } from './money-sums.ts';

const formats = new Map<string, Intl.NumberFormat>();

/** Decimals of a currency: 2 for USD, 0 for JPY. @throws ValidationError `money.unknown-currency` */
export function currencyDecimals(currency: string): number {
  return decimalsOf(formatOf(currency, 'en-US'));
}

/**
 * Minor units as a decimal number, exactly.
 * @example decimalText(-1250, 'USD') // '-12.50'
 */
export function decimalText(minor: number, currency: string): string {
  const places = currencyDecimals(currency);
  const digits = String(Math.abs(minor)).padStart(places + 1, '0');
  const cut = digits.length - places;
  const text = places === 0 ? digits : `${digits.slice(0, cut)}.${digits.slice(cut)}`;
  return minor < 0 ? `-${text}` : text;
}

/**
 * Reads `45`, `45.50`, `$45.50`, `45,50`, `1,234.50`, `1.234,50`, `-5` (a credit) as minor units. A mark before no
 * more digits than the currency has decimals is the decimal mark; before three it separates thousands, unless the
 * currency itself has three decimals, where `1,234` may mean either.
 * @throws ValidationError `money.empty`, `money.unreadable`, `money.too-fine`, `money.ambiguous`, `money.too-large`,
 *   `money.other-currency` (a sign or code that is not this currency's), `money.unknown-currency`
 */
export function parseMoney(text: string, currency: string): number {
  const typed = text.trim();
  if (typed === '') throw new ValidationError('money.empty', 'typed');
  const places = currencyDecimals(currency);
  const plain = typed.normalize('NFKC').replace(/[−–]/g, '-').replace(/\s/g, '');
  const match = /^(-?)([^\d.,-]*)(-?)([\d.,]*\d[\d.,]*)([^\d.,-]*)$/.exec(plain);
  if (!match) throw new ValidationError('money.unreadable', 'typed', { typed });
  const [, sign = '', before = '', inner = '', number = '', after = ''] = match;
  if (sign && inner) throw new ValidationError('money.unreadable', 'typed', { typed });
  const mark = before || after;
  if (mark && ((before && after) || !marksOf(currency).has(mark.toUpperCase())))
    throw new ValidationError('money.other-currency', 'typed', { typed, currency });
  const minor = Number(minorDigits(number, places, typed));
  if (!(minor <= MAX_MINOR)) throw new ValidationError('money.too-large', 'typed', { typed });
  return (sign || inner) && minor !== 0 ? -minor : minor;
}

/** The digits of the amount with exactly `places` decimals, without the mark. */
function minorDigits(number: string, places: number, typed: string): string {
  const problem = (code: string): ValidationError =>
    new ValidationError(code, 'typed', { typed, decimals: places });
  const marks = [...number].filter((letter) => letter === '.' || letter === ',');
  const last = marks.at(-1);
  const grouped = /^[1-9]\d{0,2}(,\d{3})+(\.\d*)?$|^[1-9]\d{0,2}(\.\d{3})+(,\d*)?$/.test(number);
  const soleMark = marks.length === 1;
  if (soleMark && grouped && places === 3) throw problem('money.ambiguous');
  if (soleMark && grouped && last === '.') throw problem('money.too-fine');
  const decimalMark = grouped && (soleMark || new Set(marks).size === 1) ? undefined : last;
  if (!grouped && marks.length > 1) throw problem('money.unreadable');
  const cut = decimalMark === undefined ? number.length : number.lastIndexOf(decimalMark);
  const whole = number.slice(0, cut).replace(/[.,]/g, '');
  const part = number.slice(cut + 1);
  if (part.length > places) throw problem('money.too-fine');
  return whole + part.padEnd(places, '0');
}

/** Symbols and code of the currency: `$`, `US$`, `USD`. */
function marksOf(currency: string): Set<string> {
  const marks = [currency];
  for (const currencyDisplay of ['symbol', 'narrowSymbol'] as const)
    for (const locale of ['en-US', 'en-CA']) {
      const parts = new Intl.NumberFormat(locale, { style: 'currency', currency, currencyDisplay });
      marks.push(parts.formatToParts(0).find(({ type }) => type === 'currency')?.value ?? currency);
    }
  return new Set(marks.map((mark) => mark.toUpperCase()));
}

function formatOf(currency: string, locale: string): Intl.NumberFormat {
  const key = `${locale} ${currency}`;
  let format = formats.get(key);
  if (!format) {
    try {
      format = new Intl.NumberFormat(locale, { style: 'currency', currency });
    } catch (error) {
      throw new ValidationError('money.unknown-currency', 'currency', { currency, cause: String(error) });
    }
    formats.set(key, format);
  }
  return format;
}

function decimalsOf(format: Intl.NumberFormat): number {
  return format.resolvedOptions().maximumFractionDigits ?? 2;
}
