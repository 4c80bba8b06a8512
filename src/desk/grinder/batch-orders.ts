/** What the owners of a batch ordered of its product: patties or bulk, and package size. */
import { instructionsOf } from '../animal/instructions.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage } from '../contract/contract.ts';

/**
 * Distinct patty sizes in grams that the owners ordered of this product, and the first owner's package size in grams,
 * or null without owners.
 */
export function batchOrders(
  session: Session,
  animals: readonly { id: number }[],
  product: string,
): Pick<BatchPage, 'patties' | 'packageGrams'> {
  const orders = animals.map(({ id }) => instructionsOf(session, id));
  const patties = orders.flatMap(({ alsoGround, grindProduct, pattyGrams }) => {
    const grinds = [...alsoGround, { product: grindProduct, pattyGrams }];
    return grinds.find((grind) => grind.product === product)?.pattyGrams ?? [];
  });
  return { patties: [...new Set(patties)], packageGrams: orders[0]?.packageGrams ?? null };
}
