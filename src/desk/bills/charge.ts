/** What an animal is charged by the prices in force, with all that its bill leaves the price book for. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { priceLines, type Amounts, type Charge } from '../../core/pricing/price.ts';
import { applies } from '../../core/pricing/lines.ts';
import { coreAdjustments } from '../pricing/adjustments.ts';
import { standingAdjustments } from '../pricing/standing-adjustments.ts';
import { unpricedOf } from '../pricing/gaps.ts';
import type { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { weighedAmounts } from './amounts.ts';
import type { BillLack, Unpriced } from '../contract/contract.ts';

type Prices = NonNullable<ReturnType<typeof pricesInForce>>;

export interface Charged {
  /** Null without prices. */
  charge: Charge | null;
  /** With what products are charged as. */
  amounts: Amounts;
  lacks: BillLack[];
  /** What nothing is charged for because no line is for it. */
  unpriced: Unpriced[];
  /** Other prices that change nothing, because their line is not on the bill: by the line's code. */
  pricesUnused: string[];
}

/** Prices the animal as it is weighed now. @param prices null without any */
export function chargeOf(session: Session, animal: AnimalRow, prices: Prices | null): Charged {
  const weighed = weighedAmounts(session, animal);
  const { lacks } = weighed;
  if (!prices) return { charge: null, amounts: weighed.amounts, lacks, unpriced: [], pricesUnused: [] };
  const { adjustments, chargeAs } = coreAdjustments(
    prices.lines,
    standingAdjustments(session, animal.id, prices.currency),
  );
  const amounts = { ...weighed.amounts, chargeAs };
  const charge = priceLines({ lines: prices.lines, amounts, taxRule: prices.taxRule, adjustments });
  // A smallest charge that the other lines reach is no line of the bill, and is in force all the same.
  const inForce = [
    ...charge.lines,
    ...prices.lines.filter((line) => line.basis === 'minimum' && applies(line, amounts)),
  ];
  return {
    charge,
    amounts,
    lacks,
    unpriced: unpricedOf(session, prices.lines, amounts, charge.uncovered),
    pricesUnused: adjustments.flatMap((one) =>
      one.kind === 'other price' && !inForce.some(({ code }) => code === one.lineCode) ? [one.lineCode] : [],
    ),
  };
}
