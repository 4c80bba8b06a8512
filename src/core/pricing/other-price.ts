/** Bases without a price of their own: shares of other lines, deposits, tax, and adjustments. */
const WITHOUT_PRICE: readonly string[] = ['percent', 'deposit', 'tax', 'free', 'discount'];

/** Whether a line's price is an amount, so that a bill or quote can replace it. */
export function mayHaveOtherPrice(basis: string): boolean {
  return !WITHOUT_PRICE.includes(basis);
}
