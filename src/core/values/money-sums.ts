/** Money in integer minor units (cents). Every product with a rate is computed exactly and rounded once. */
import { ValidationError } from './validation-error.ts';
import { GRAMS_PER, type MassUnit } from './units.ts';

/** A number as digits / 10^decimals, exactly as written. */
export interface Decimal {
  readonly digits: bigint;
  readonly decimals: number;
}

/**
 * Upper limit of a single amount, in minor units (a thousand million dollars). Thousands of such amounts still sum
 * to integers that a double holds exactly, in the book and here.
 */
export const MAX_MINOR = 100_000_000_000;

/** Decimals of a weight in pounds or kilograms: 0.01 lb is 0.0045359237 kg exactly. */
const WEIGHT_DECIMALS = 10;

/**
 * The integer nearest to `value`, halves away from zero: 2.5 → 3, −2.5 → −3 (`Math.round` gives −2). It rounds the
 * decimal representation, not the binary one: 1.005 × 100 given as 100.49999999999999 rounds to 100.
 * @throws ValidationError `number.not-finite`
 */
export function roundHalfAwayFromZero(value: number): number {
  return roundDecimal(decimalOf(value, 'value'));
}

/**
 * A share of an amount: `percentOf(1050, 0.0825)` is 87 (86.625 cents).
 * @param rate fraction, e.g. 0.0825 for 8.25 %; it may be negative
 * @throws ValidationError `money.not-whole`, `number.not-finite`, `money.too-large`
 */
export function percentOf(minor: number, rate: number): number {
  const { digits, decimals } = decimalOf(rate, 'rate');
  return roundDecimal({ digits: BigInt(wholeMinor(minor, 'minor')) * digits, decimals });
}

/**
 * Price per pound (kilogram, ounce, gram) times a weight. The weight is first converted to that unit with ten
 * decimals, so that 12.5 lb, stored as 5669.904625 g, is 12.5 again: at 45 cents 562.5, hence 563.
 * @throws ValidationError `number.not-finite`, `money.too-large`
 */
export function timesRate(amountPerUnitMinor: number, grams: number, unit: MassUnit): number {
  return timesDecimal(amountPerUnitMinor, quantityIn(grams, unit));
}

/** Price times any quantity, written exactly, e.g. 1.5 hours. @throws ValidationError as `timesRate` */
export function timesDecimal(amountMinor: number, quantity: Decimal): number {
  const price = decimalOf(amountMinor, 'amountMinor');
  return roundDecimal({
    digits: price.digits * quantity.digits,
    decimals: price.decimals + quantity.decimals,
  });
}

/** Of an hour. */
export const MINUTES = 60;

/** Price per hour times minutes, exactly: 50 minutes at 6500 cents are 5417. @throws ValidationError as `timesRate` */
export function timesMinutes(perHourMinor: number, minutes: number): number {
  const [price, time] = [decimalOf(perHourMinor, 'amountMinor'), decimalOf(minutes, 'minutes')];
  return roundRatio(
    price.digits * time.digits,
    BigInt(MINUTES) * 10n ** BigInt(price.decimals + time.decimals),
  );
}

/** A weight in `unit` with ten decimals. @throws ValidationError `number.not-finite`, `money.too-large` */
export function quantityIn(grams: number, unit: MassUnit): Decimal {
  if (!Number.isFinite(grams)) throw new ValidationError('number.not-finite', 'grams');
  const steps = Math.round((grams / GRAMS_PER[unit]) * 10 ** WEIGHT_DECIMALS);
  if (!Number.isSafeInteger(steps)) throw new ValidationError('money.too-large', 'grams');
  return { digits: BigInt(steps), decimals: WEIGHT_DECIMALS };
}

/** The decimal representation of a number: 0.1 is one tenth, not its nearest binary fraction. */
export function decimalOf(value: number, field: string): Decimal {
  if (Number.isSafeInteger(value)) return { digits: BigInt(value), decimals: 0 };
  if (!Number.isFinite(value)) throw new ValidationError('number.not-finite', field);
  const [mantissa = '0', power = '0'] = String(value).split('e');
  const [whole = '0', part = ''] = mantissa.split('.');
  const decimals = part.length - Number(power);
  const digits = BigInt(whole + part);
  return decimals >= 0 ? { digits, decimals } : { digits: digits * 10n ** BigInt(-decimals), decimals: 0 };
}

/** Exact sum: 0.1 and 0.2 make 0.3. */
export function addDecimals(a: Decimal, b: Decimal): Decimal {
  const decimals = Math.max(a.decimals, b.decimals);
  const scaled = (one: Decimal): bigint => one.digits * 10n ** BigInt(decimals - one.decimals);
  return { digits: scaled(a) + scaled(b), decimals };
}

/** As a plain number, for display. */
export function decimalNumber({ digits, decimals }: Decimal): number {
  return Number(digits) / 10 ** decimals;
}

/** Checks that an amount can be stored in the book. @throws ValidationError `money.too-large` */
export function boundedMinor(minor: number, field: string): number {
  if (!(Math.abs(minor) <= MAX_MINOR)) throw new ValidationError('money.too-large', field);
  return minor;
}

/** @throws ValidationError `money.not-whole` */
export function wholeMinor(value: number, field: string): number {
  if (!Number.isSafeInteger(value)) throw new ValidationError('money.not-whole', field);
  return value;
}

function roundDecimal({ digits, decimals }: Decimal): number {
  return decimals === 0 ? safeNumber(digits) : roundRatio(digits, powerOfTen(decimals));
}

const powersOfTen: bigint[] = [];

/** Kept: a season's bills ask for a few of them tens of thousands of times. */
function powerOfTen(decimals: number): bigint {
  return (powersOfTen[decimals] ??= 10n ** BigInt(decimals));
}

function roundRatio(digits: bigint, one: bigint): number {
  const size = digits < 0n ? -digits : digits;
  const rounded = safeNumber((2n * size + one) / (2n * one));
  return digits < 0n && rounded !== 0 ? -rounded : rounded;
}

function safeNumber(whole: bigint): number {
  const number = Number(whole);
  if (!Number.isSafeInteger(number)) throw new ValidationError('money.too-large', 'amount');
  return number;
}
