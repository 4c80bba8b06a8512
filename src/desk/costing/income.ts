/** Charged lines grouped by service. */
import type { SeasonBillLine } from '../../book/sums/season-money.ts';
import type { Basis } from '../../core/pricing/price.ts';
import type { IncomeCode, IncomeGroup } from '../contract/contract.ts';

const SERVICE_OF: Readonly<Record<Basis, IncomeCode>> = {
  animal: 'cutting',
  hanging: 'cutting',
  ground: 'grinding',
  product: 'products',
  trim: 'products',
  fat: 'fat',
  extra: 'extras',
  package: 'whole',
  hour: 'whole',
  percent: 'whole',
  minimum: 'whole',
  deposit: 'whole',
  free: 'whole',
  discount: 'whole',
};

/** In the order of the work. */
export const INCOME_CODES: readonly IncomeCode[] = [
  'cutting',
  'grinding',
  'products',
  'fat',
  'extras',
  'whole',
];

/** @example incomeCodeOf('hanging') // 'cutting' */
export function incomeCodeOf(basis: string): IncomeCode {
  return SERVICE_OF[basis as Basis] ?? 'whole';
}

/** Groups in the order of the work, their lines in their own order; empty groups are left out. */
export function groupIncome(lines: readonly SeasonBillLine[]): IncomeGroup[] {
  return INCOME_CODES.map((group) => {
    const own = lines
      .filter(({ basis }) => incomeCodeOf(basis) === group)
      .map(({ code, label, bills, amount_minor }) => ({ code, label, bills, minor: amount_minor }));
    return { code: group, minor: own.reduce((total, { minor }) => total + minor, 0), lines: own };
  }).filter(({ lines: own }) => own.length > 0);
}
