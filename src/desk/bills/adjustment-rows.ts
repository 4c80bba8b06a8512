import type { PriceLine } from '../../core/pricing/price.ts';
import { adjustmentOf } from '../pricing/adjustments.ts';
import { productLookup } from '../pricing/product-lookup.ts';
import type { Session } from '../session/session.ts';
import type { AdjustmentRow } from '../contract/contract.ts';

/** An animal's adjustments as a window shows them, oldest first, including voided ones. */
export function adjustmentRows(
  session: Session,
  animalId: number,
  lines: readonly PriceLine[],
): AdjustmentRow[] {
  const lookup = productLookup(session);
  return session.book.adjustments.ofAnimal(animalId).map((row) => ({
    ...adjustmentOf(row),
    id: row.id,
    line:
      row.line_code === null
        ? null
        : (labelIn(lines, row.line_code) ??
          quotedLabel(session, row.quote_id, row.line_code) ??
          row.line_code),
    productName: row.product === null ? null : (lookup(row.product)?.name ?? row.product),
    quote: row.quote_id === null ? null : (session.book.quotes.get(row.quote_id)?.name ?? null),
    at: row.at,
    by: row.by,
    voided:
      row.void_at === null ? null : { reason: row.void_reason ?? '', by: row.void_by ?? '', at: row.void_at },
  }));
}

function labelIn(lines: readonly { code: string; label: string }[], code: string): string | undefined {
  return lines.find((line) => line.code === code)?.label;
}

/** Label of a line in the prices of the quote; newer prices may not have it. */
function quotedLabel(session: Session, quoteId: number | null, code: string): string | undefined {
  const bookId = quoteId === null ? null : session.book.quotes.get(quoteId)?.price_book_id;
  return bookId ? labelIn(session.book.prices.lines(bookId), code) : undefined;
}
