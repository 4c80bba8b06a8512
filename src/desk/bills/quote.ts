/** Compares an animal's bill with its quote, line by line, with reasons. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { splitDifference } from './difference.ts';
import { answeredOf } from '../pricing/quote-saved.ts';
import type { Session } from '../session/session.ts';
import type {
  BillView,
  BillSums,
  LineCalculation,
  QuoteDifference,
  QuoteLine,
} from '../contract/contract.ts';
import { TAX_LABEL } from '../names/line-labels.ts';

/** One side of a line, which may be missing. */
interface Side {
  label: string;
  minor: number;
  calculation: LineCalculation | null;
}

/** A minimum charge fills up the other lines, so its quantity means nothing. */
const FOLLOWS = 'minimum';

/**
 * Compares lines by code. Tax is a line of its own on both sides, so that the differences sum to that of the totals.
 */
export function quoteBeside(session: Session, animal: AnimalRow, sums: BillSums | null): BillView['quote'] {
  const quote = session.book.quotes.ofAnimal(animal.id);
  const price = quote && answeredOf(quote).price;
  // Sums in different currencies are not compared.
  if (!quote || !price || !sums || price.currency !== sums.currency) return null;
  const quoted = new Map(price.lines.map((line) => [line.code, quotedSide(line)]));
  const billed = billedSides(sums);
  const codes = [...new Set([...quoted.keys(), ...billed.keys()])];
  return {
    id: quote.id,
    name: quote.name,
    totalMinor: price.mean,
    lowMinor: price.low,
    highMinor: price.high,
    lines: codes.map((code) => differenceOf(code, quoted.get(code), billed.get(code))),
  };
}

function quotedSide(line: QuoteLine): Side {
  const { label, basis, quantity, unit, unitPriceMinor, mean } = line;
  // Its most likely quantity is zero, so there is no unit price to compare.
  const there = quantity !== null && unitPriceMinor !== null && quantity.mean !== 0;
  return {
    label,
    minor: mean,
    calculation: there ? { basis, quantity: quantity.mean, unit, unitPriceMinor } : null,
  };
}

function billedSides({ lines, taxMinor }: BillSums): Map<string, Side> {
  const sides = new Map<string, Side>(
    lines.map(({ code, label, basis, quantity, unit, unitPriceMinor, amountMinor }) => [
      code,
      { label, minor: amountMinor, calculation: { basis, quantity, unit, unitPriceMinor } },
    ]),
  );
  if (taxMinor !== 0) sides.set('tax', { label: TAX_LABEL, minor: taxMinor, calculation: null });
  return sides;
}

function differenceOf(code: string, quoted: Side | undefined, billed: Side | undefined): QuoteDifference {
  const before = quoted?.calculation ?? null;
  const after = billed?.calculation ?? null;
  const quotedMinor = quoted?.minor ?? 0;
  const billedMinor = billed?.minor ?? 0;
  const comparable = before && after && before.basis === after.basis && before.basis !== FOLLOWS;
  return {
    code,
    label: billed?.label ?? quoted?.label ?? code,
    quotedMinor,
    billedMinor,
    differenceMinor: billedMinor - quotedMinor,
    quoted: before,
    billed: after,
    split: comparable
      ? splitDifference({ ...before, amountMinor: quotedMinor }, { ...after, amountMinor: billedMinor })
      : null,
  };
}
