/** The charge of an animal by the prices in force and its adjustments. */
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
  /** Amounts after products without a price were mapped to lines. */
  amounts: Amounts;
  lacks: BillLack[];
  /** Items that no line charges. */
  unpriced: Unpriced[];
  /** Codes of lines with another price that are not on the bill. */
  pricesUnused: string[];
}

/** Prices the animal by its current weights. @param prices null if there are none */
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
  // A minimum charge that the other lines reach is in force without a line of its own.
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
