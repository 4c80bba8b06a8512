/** A share of other lines, asked in advance, tax, or what a bill's own changes make. */
const WITHOUT_PRICE: readonly string[] = ['percent', 'deposit', 'tax', 'free', 'discount'];

/** Lines of a price book whose price is an amount may have another one for a bill or quote. */
export function mayHaveOtherPrice(basis: string): boolean {
  return !WITHOUT_PRICE.includes(basis);
}
