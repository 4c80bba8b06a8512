import type { AdjustmentInput } from '../../bridge/contract.ts';
import { parseMoney } from '../../core/values/money.ts';
import { text } from '../../words/compiled/window/charges.ts';
import { readPercent } from '../texts/percent.ts';

/** Kinds offered by the form; charging a product as another line has its own button. */
export type AdjustmentKind = keyof typeof text.kinds;

/** An adjustment as text fields, so that invalid input is not lost. */
export interface TypedAdjustment {
  kind: AdjustmentKind;
  label: string;
  amount: string;
  rate: string;
  tax: string;
  lineCode: string;
  reason: string;
}

export type WrongAdjustment = Partial<Record<Exclude<keyof TypedAdjustment, 'kind'>, string>>;

/** Empty fields. */
export function emptyAdjustment(): TypedAdjustment {
  return { kind: 'amount off', label: '', amount: '', rate: '', tax: '', lineCode: '', reason: '' };
}

/** Parses the fields. `wrong` holds a message for each invalid field; `value` is null while there is one. */
export function readAdjustment(
  typed: TypedAdjustment,
  currency: string,
): { value: AdjustmentInput | null; wrong: WrongAdjustment } {
  const reason = typed.reason.trim();
  const wrong: WrongAdjustment = reason === '' ? { reason: text.wrong.reason } : {};
  const done = (value: AdjustmentInput) =>
    Object.keys(wrong).length > 0 ? { value: null, wrong } : { value, wrong };
  const { kind } = typed;
  if (kind === 'percent off') {
    const rate = readPercent(typed.rate);
    if (rate === null || rate <= 0 || rate > 1) wrong.rate = text.wrong.rate;
    return done({ kind, rate: rate ?? 0, reason });
  }
  const amountMinor = moneyOf(typed.amount, currency);
  if (kind === 'other price') {
    if (amountMinor === null) wrong.amount = text.wrong.price;
    if (typed.lineCode === '') wrong.lineCode = text.wrong.line;
    return done({ kind, lineCode: typed.lineCode, amountMinor: amountMinor ?? 0, reason });
  }
  if (amountMinor === null || amountMinor === 0) wrong.amount = text.wrong.amount;
  if (kind === 'amount off') return done({ kind, amountMinor: amountMinor ?? 0, reason });
  const taxRate = typed.tax.trim() === '' ? 0 : readPercent(typed.tax);
  const label = typed.label.trim();
  if (label === '') wrong.label = text.wrong.label;
  if (taxRate === null || taxRate > 0.5) wrong.tax = text.wrong.tax;
  return done({ kind, label, amountMinor: amountMinor ?? 0, taxRate: taxRate ?? 0, reason });
}

/** Minor units, zero or more; null for an invalid amount. */
function moneyOf(typed: string, currency: string): number | null {
  try {
    const minor = parseMoney(typed, currency);
    return minor >= 0 ? minor : null;
  } catch {
    return null;
  }
}
