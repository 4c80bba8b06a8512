/** Whether a basis charges for products: by their finished weight, or by the trim that went into them. */
export function isByProduct(basis: string): boolean {
  return basis === 'product' || basis === 'trim';
}
