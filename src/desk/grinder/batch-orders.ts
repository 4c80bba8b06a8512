/** What the owners of a batch ordered of its product: patties or bulk, and the size of a package. */
import { instructionsOf } from '../animal/instructions.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage } from '../contract/contract.ts';

/**
 * Patty sizes in grams, each once, as ordered of this product by whoever is in the batch; the package, in grams, is
 * the first owner's, or null where nobody is.
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
