/** What one bill or quote leaves the price book for: what may be asked, and what it means to the core. */
import * as v from 'valibot';
import type { AdjustmentRecord, NewAdjustment } from '../../book/records/charges/adjustments.ts';
import { isByProduct } from '../../core/pricing/cover.ts';
import { mayHaveOtherPrice } from '../../core/pricing/other-price.ts';
import type { Adjustment, PriceLine } from '../../core/pricing/price.ts';
import { listOf, needed, text } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { money } from './price-input.ts';
import type { AdjustmentAsked } from '../contract/contract.ts';

/** Of one quote. */
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

/** What each kind keeps besides its reason. Anything else that is filled in would be lost. */
const KEEPS: Readonly<Record<Fields['kind'], readonly (keyof Fields)[]>> = {
  'free line': ['label', 'amountMinor', 'taxRate'],
  'amount off': ['amountMinor'],
  'percent off': ['rate'],
  'other price': ['lineCode', 'amountMinor'],
  'charge as': ['product', 'lineCode'],
};
const FILLED = ['label', 'lineCode', 'product', 'amountMinor', 'rate', 'taxRate'] as const;

/** Kinds whose amount is more than nothing. */
const CHARGES: readonly string[] = ['free line', 'amount off'];
/** One adjustment as a window sends it; what its kind does not use is left out, empty or 0. */
export const adjustmentAsked = v.pipe(
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
}: Fields): AdjustmentAsked {
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
export const adjustmentsAsked = listOf(adjustmentAsked, MAX_ADJUSTMENTS);

/** An adjustment with the code of the line that it makes; `adjustment-` begins no code of a price book. */
type Coded = AdjustmentAsked & { code: string };

const OF_ADJUSTMENT = 'adjustment-';

/** Whether a line of a bill is a free line or a discount of that bill, and not one of the price book. */
export function isOfAdjustment(code: string): boolean {
  return code.startsWith(OF_ADJUSTMENT);
}

/** The code that stands for the lines of many bills that are called alike; a season's lines have it too. */
export function adjustmentCode(label: string): string {
  return OF_ADJUSTMENT + label;
}

/** The code of the nth that a quote promises; a bill of the animal that came of it has the same. */
export function quotedCode(place: number): string {
  return `adjustment-quoted-${place + 1}`;
}

/** As `priceLines` takes them: adjustments proper, and what products are charged as. */
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
          { kind: one.kind, code: one.code, label: `Discount: ${one.reason}`, amountMinor: one.amountMinor },
        ];
      case 'percent off':
        return [{ kind: one.kind, code: one.code, label: `Discount: ${one.reason}`, rate: one.rate }];
      case 'other price': {
        const label = lines.find(({ code }) => code === one.lineCode)?.label ?? one.lineCode;
        return [
          {
            kind: one.kind,
            lineCode: one.lineCode,
            label: `${label} (price changed)`,
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
 * Refuses what could not be charged.
 * @throws ProblemError `adjustment.line` (no such line, or one without a price of its own), `price.discount-over-all`
 */
export function checkAdjustments(lines: readonly PriceLine[], adjustments: readonly AdjustmentAsked[]): void {
  for (const one of adjustments) {
    if (one.kind !== 'other price' && one.kind !== 'charge as') continue;
    const line = lines.find(({ code }) => code === one.lineCode);
    const fits = line && (one.kind === 'charge as' ? isByProduct(line.basis) : mayHaveOtherPrice(line.basis));
    if (!fits)
      throw new ProblemError('invalid', 'adjustment.line', {
        field: 'lineCode',
        with: { line: one.lineCode },
      });
  }
  const off = adjustments.reduce((sum, one) => sum + (one.kind === 'percent off' ? one.rate : 0), 0);
  // Percentages are typed to a hundredth of a per cent; a sum of binary fractions is not that exact.
  if (Math.round(off * 10_000) > 10_000)
    throw new ProblemError('invalid', 'price.discount-over-all', { field: 'rate' });
}

/** As the book keeps it. */
export function adjustmentRow(
  asked: AdjustmentAsked,
  of: Pick<NewAdjustment, 'animal_id' | 'quote_id' | 'currency' | 'at' | 'by'>,
): NewAdjustment {
  const { animal_id, quote_id, currency, at, by } = of;
  return {
    animal_id,
    quote_id,
    kind: asked.kind,
    label: asked.kind === 'free line' ? asked.label : '',
    line_code: 'lineCode' in asked ? asked.lineCode : null,
    product: asked.kind === 'charge as' ? asked.product : null,
    amount_minor: 'amountMinor' in asked ? asked.amountMinor : null,
    rate: asked.kind === 'percent off' ? asked.rate : null,
    tax_rate: asked.kind === 'free line' ? asked.taxRate : null,
    currency,
    reason: asked.reason,
    at,
    by,
  };
}

/** What a row of the book says. */
export function adjustmentOf(row: AdjustmentRecord): AdjustmentAsked {
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
