import type { BatchPage, FatChoice, OrderedFat } from '../../bridge/contract.ts';

/**
 * Animals of a batch whose cut sheet asks for other fat than the batch gets, each with what it asks for. An animal
 * without an order for this product is held against its first order. A percentage is no difference: animals ground
 * together share one.
 */
export function otherFat(
  chosen: BatchPage['orders'],
  product: string,
  fat: FatChoice,
): { ticket: string; want: OrderedFat }[] {
  return chosen.flatMap(({ ticket, wants }) => {
    const want = wants.find((one) => one.product === product) ?? wants[0];
    return want && !want.recipe && want.fat !== fat ? [{ ticket, want }] : [];
  });
}
