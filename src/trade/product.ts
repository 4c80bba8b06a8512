/** Kinds of product that a shop makes. */
export const PRODUCT_KINDS = ['whole cuts', 'grind', 'sausage', 'jerky', 'other'] as const;
export type ProductKind = (typeof PRODUCT_KINDS)[number];
