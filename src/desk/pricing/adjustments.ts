/** Adjustments: departures of one bill or quote from the price book, as input and for the core. */
import * as v from 'valibot';
import type { AdjustmentRecord, NewAdjustment } from '../../book/records/charges/adjustments.ts';
import { mayCharge } from '../../core/pricing/cover.ts';
import { mayHaveOtherPrice } from '../../core/pricing/other-price.ts';
import type { Adjustment, PriceLine } from '../../core/pricing/price.ts';
import { listOf, needed, text } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { changedLabel, discountLabel } from '../names/line-labels.ts';
import { reasonIn } from '../names/names.ts';
import { SOURCE_LANGUAGE } from '../../words/languages.ts';
import { money } from './price-input.ts';
import type { AdjustmentInput } from '../contract/contract.ts';

/** Per quote. */
const MAX_ADJUSTMENTS = 20;
const MAX_TAX = 0.5;

const KINDS = ['free line', 'amount off', 'percent off', 'other price', 'charge as'] as const;

const fields = v.object({
  kind: v.picklist(KINDS, 'choice.adjustment'),
  label: text(120),
  lineCode: text(40),
  product: text(60),
  amountMinor: v.optional(v.pipe(money, v.minValue(0, 'adjustment.amount')), 0),
  rate: v.optional(
    v.pipe(v.number('adjustment.rate'), v.minValue(0, 'adjustment.rate'), v.maxValue(1, 'adjustment.rate')),
    0,
  ),
  taxRate: v.optional(
    v.pipe(v.number('share.range'), v.minValue(0, 'share.range'), v.maxValue(MAX_TAX, 'share.range')),
    0,
  ),
  reason: needed(200),
});
type Fields = v.InferOutput<typeof fields>;

/** The fields that each kind uses besides its reason. Other fields must be empty. */
const KEEPS: Readonly<Record<Fields['kind'], readonly (keyof Fields)[]>> = {
  'free line': ['label', 'amountMinor', 'taxRate'],
  'amount off': ['amountMinor'],
  'percent off': ['rate'],
  'other price': ['lineCode', 'amountMinor'],
  'charge as': ['product', 'lineCode'],
};
const FILLED = ['label', 'lineCode', 'product', 'amountMinor', 'rate', 'taxRate'] as const;

/** Kinds whose amount must be positive. */
const CHARGES: readonly string[] = ['free line', 'amount off'];
/** Input for one adjustment; fields that its kind does not use are omitted, empty or 0. */
export const adjustmentInput = v.pipe(
  fields,
  v.check((one) => one.kind !== 'free line' || one.label !== '', 'text.needed'),
  v.check((one) => !CHARGES.includes(one.kind) || one.amountMinor > 0, 'adjustment.amount'),
  v.check((one) => one.kind !== 'percent off' || one.rate > 0, 'adjustment.rate'),
  v.check((one) => one.kind !== 'charge as' || one.product !== '', 'text.needed'),
  v.check(
    (one) => FILLED.every((key) => KEEPS[one.kind].includes(key) || one[key] === '' || one[key] === 0),
    'adjustment.not-of-kind',
  ),
  v.transform(askedOf),
);

function askedOf({
  kind,
  label,
  lineCode,
  product,
  amountMinor,
  rate,
  taxRate,
  reason,
}: Fields): AdjustmentInput {
  switch (kind) {
    case 'free line':
      return { kind, label, amountMinor, taxRate, reason };
    case 'amount off':
      return { kind, amountMinor, reason };
    case 'percent off':
      return { kind, rate, reason };
    case 'other price':
      return { kind, lineCode, amountMinor, reason };
    case 'charge as':
      return { kind, product, lineCode, reason };
  }
}
export const adjustmentsInput = listOf(adjustmentInput, MAX_ADJUSTMENTS);

/** An adjustment with the code of its line; no code of a price book starts with `adjustment-`. */
type Coded = AdjustmentInput & { code: string };

const OF_ADJUSTMENT = 'adjustment-';

/** Whether a bill line comes from an adjustment and not from the price book. */
export function isOfAdjustment(code: string): boolean {
  return code.startsWith(OF_ADJUSTMENT);
}

/** One code for all adjustment lines with the same label, used in season reports. */
export function adjustmentCode(label: string): string {
  return OF_ADJUSTMENT + label;
}

/** The code of the nth adjustment of a quote; the bill of the resulting animal uses the same. */
export function quotedCode(place: number): string {
  return `adjustment-quoted-${place + 1}`;
}

/** The input of `priceLines`: adjustments, and lines for products without a price. */
export function coreAdjustments(
  lines: readonly PriceLine[],
  adjustments: readonly Coded[],
): { adjustments: Adjustment[]; chargeAs: Record<string, string> } {
  const chargeAs: Record<string, string> = {};
  const found = adjustments.flatMap((one): Adjustment[] => {
    switch (one.kind) {
      case 'free line':
        return [
          {
            kind: one.kind,
            code: one.code,
            label: one.label,
            amountMinor: one.amountMinor,
            taxRate: one.taxRate,
          },
        ];
      case 'amount off':
        return [
          {
            kind: one.kind,
            code: one.code,
            label: discountLabel(reasonIn(SOURCE_LANGUAGE, one.reason)),
            amountMinor: one.amountMinor,
          },
        ];
      case 'percent off':
        return [
          {
            kind: one.kind,
            code: one.code,
            label: discountLabel(reasonIn(SOURCE_LANGUAGE, one.reason)),
            rate: one.rate,
          },
        ];
      case 'other price': {
        const label = lines.find(({ code }) => code === one.lineCode)?.label ?? one.lineCode;
        return [
          {
            kind: one.kind,
            lineCode: one.lineCode,
            label: changedLabel(label),
            amountMinor: one.amountMinor,
          },
        ];
      }
      case 'charge as':
        chargeAs[one.product] = one.lineCode;
        return [];
    }
  });
  return { adjustments: found, chargeAs };
}

/**
 * Refuses adjustments that cannot be charged.
 * @throws ProblemError `adjustment.line` (no such line, or one without a price of its own), `price.discount-over-all`
 */
export function checkAdjustments(lines: readonly PriceLine[], adjustments: readonly AdjustmentInput[]): void {
  for (const one of adjustments) {
    if (one.kind !== 'other price' && one.kind !== 'charge as') continue;
    const line = lines.find(({ code }) => code === one.lineCode);
    const fits = line && (one.kind === 'charge as' ? mayCharge(line.basis) : mayHaveOtherPrice(line.basis));
    if (!fits)
      throw new ProblemError('invalid', 'adjustment.line', {
        field: 'lineCode',
        with: { line: one.lineCode },
      });
  }
  const off = adjustments.reduce((sum, one) => sum + (one.kind === 'percent off' ? one.rate : 0), 0);
  // Percentages have two decimals; rounding removes the error of binary fractions.
  if (Math.round(off * 10_000) > 10_000)
    throw new ProblemError('invalid', 'price.discount-over-all', { field: 'rate' });
}

/** The row to store. */
export function adjustmentRow(
  adjustment: AdjustmentInput,
  of: Pick<NewAdjustment, 'animal_id' | 'quote_id' | 'currency' | 'at' | 'by'>,
): NewAdjustment {
  const { animal_id, quote_id, currency, at, by } = of;
  return {
    animal_id,
    quote_id,
    kind: adjustment.kind,
    label: adjustment.kind === 'free line' ? adjustment.label : '',
    line_code: 'lineCode' in adjustment ? adjustment.lineCode : null,
    product: adjustment.kind === 'charge as' ? adjustment.product : null,
    amount_minor: 'amountMinor' in adjustment ? adjustment.amountMinor : null,
    rate: adjustment.kind === 'percent off' ? adjustment.rate : null,
    tax_rate: adjustment.kind === 'free line' ? adjustment.taxRate : null,
    currency,
    reason: adjustment.reason,
    at,
    by,
  };
}

/** Reads a stored row. */
export function adjustmentOf(row: AdjustmentRecord): AdjustmentInput {
  const { reason: why, label, amount_minor, rate, tax_rate, line_code, product } = row;
  const amountMinor = amount_minor ?? 0;
  const lineCode = line_code ?? '';
  switch (row.kind) {
    case 'free line':
      return { kind: row.kind, label, amountMinor, taxRate: tax_rate ?? 0, reason: why };
    case 'amount off':
      return { kind: row.kind, amountMinor, reason: why };
    case 'percent off':
      return { kind: row.kind, rate: rate ?? 0, reason: why };
    case 'other price':
      return { kind: row.kind, lineCode, amountMinor, reason: why };
    case 'charge as':
      return { kind: row.kind, product: product ?? '', lineCode, reason: why };
  }
}
