/** Kinds of product that a shop makes. */
export const PRODUCT_KINDS = ['whole cuts', 'grind', 'sausage', 'jerky', 'other'] as const;
export type ProductKind = (typeof PRODUCT_KINDS)[number];

/**
 * What the hunter's trim is ground into unless another product is chosen: a name of the supplied products. A product's
 * name is stored and priced by, so the book has it in English whatever the window's language.
 */
export const GROUND_PRODUCT = 'Ground';
/** The name that packages with whole cuts get unless another is typed; stored like a product's. */
export const WHOLE_CUTS_PRODUCT = 'Steaks and roasts';
