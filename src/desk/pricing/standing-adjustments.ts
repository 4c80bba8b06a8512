import type { Session } from '../session/session.ts';
import type { AdjustmentInput } from '../contract/contract.ts';
import { adjustmentOf, quotedCode } from './adjustments.ts';

/** Active adjustments in this currency: amounts in another one cannot be combined with these prices. */
export function standingAdjustments(
  session: Session,
  animalId: number,
  currency: string,
): (AdjustmentInput & { code: string })[] {
  const rows = session.book.adjustments.ofAnimal(animalId);
  const promised = rows.filter(({ quote_id }) => quote_id !== null);
  return rows
    .filter((row) => row.void_at === null && row.currency === currency)
    .map((row) => ({
      ...adjustmentOf(row),
      code: row.quote_id === null ? `adjustment-${row.id}` : quotedCode(promised.indexOf(row)),
    }));
}
