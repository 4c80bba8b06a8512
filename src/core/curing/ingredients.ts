/** Ingredients with what they are made of, and the allergens of the whole. What is unknown stays unknown and is never none. */
import { ValidationError } from '../values/validation-error.ts';

/** The nine major food allergens of US law (FALCPA 2004; sesame by the FASTER Act of 2021). Mustard is not among them. */
export const ALLERGENS = [
  'milk',
  'egg',
  'fish',
  'shellfish',
  'tree-nuts',
  'peanut',
  'wheat',
  'soy',
  'sesame',
] as const;
export type Allergen = (typeof ALLERGENS)[number];

/** `kind` names the nut, the fish or the crustacean. */
export interface AllergenOf {
  readonly allergen: Allergen;
  readonly kind?: string;
}

export interface Ingredient {
  readonly name: string;
  /** Ids of its sub-ingredients in the order of its packet; empty for a simple ingredient, null where the packet was not read. */
  readonly parts: readonly string[] | null;
  /** As its packet states them; `by-parts` where they follow from its sub-ingredients; `unknown` otherwise. */
  readonly allergens: readonly AllergenOf[] | 'by-parts' | 'unknown';
}

export type Library = Readonly<Record<string, Ingredient>>;

const MAX_DEPTH = 8;
/** Ingredients and sub-ingredients that one recipe may open into. */
const MAX_OPENED = 1000;

export interface AllergensOfWhole {
  /** In the order of `ALLERGENS`, each with the kinds named and the top-level ingredients that bring it. */
  readonly contains: readonly { allergen: Allergen; kinds: string[]; from: string[] }[];
  /** Top-level ingredients of which something is unknown. While there is one, the label says that allergens are unknown. */
  readonly unknown: readonly string[];
}

/**
 * Refuses what cannot be printed on a label.
 * @throws ValidationError `ingredient.unknown` (an id without an entry), `ingredient.circle` (it contains itself),
 *   `ingredient.too-deep`, `ingredient.too-many`
 */
export function requireIngredients(ids: readonly string[], library: Library): void {
  let opened = 0;
  const open = (id: string, above: readonly string[]): void => {
    if (above.includes(id))
      throw new ValidationError('ingredient.circle', id, { path: [...above, id].join(' > ') });
    if (above.length >= MAX_DEPTH) throw new ValidationError('ingredient.too-deep', id, { most: MAX_DEPTH });
    opened++;
    if (opened > MAX_OPENED) throw new ValidationError('ingredient.too-many', id, { most: MAX_OPENED });
    for (const part of ingredientOf(id, library).parts ?? []) open(part, [...above, id]);
  };
  for (const id of ids) open(id, []);
}

/** @throws ValidationError `ingredient.unknown` */
export function ingredientOf(id: string, library: Library): Ingredient {
  const found = Object.hasOwn(library, id) ? library[id] : undefined;
  if (!found) throw new ValidationError('ingredient.unknown', id, { id });
  return found;
}

/**
 * The allergens of everything together. A stated list adds to what the sub-ingredients bring: a packet may leave out what its parts say.
 * @throws ValidationError those of `requireIngredients`
 */
export function allergensOfWhole(ids: readonly string[], library: Library): AllergensOfWhole {
  requireIngredients(ids, library);
  const found = new Map<Allergen, { kinds: Set<string>; from: Set<string> }>();
  const unknown = ids.filter((top) => {
    const seen = allergensOf(top, library);
    for (const { allergen, kind } of seen.contains) {
      const entry = found.get(allergen) ?? { kinds: new Set(), from: new Set() };
      if (kind) entry.kinds.add(kind);
      entry.from.add(top);
      found.set(allergen, entry);
    }
    return !seen.known;
  });
  const contains = ALLERGENS.flatMap((allergen) => {
    const entry = found.get(allergen);
    return entry ? [{ allergen, kinds: [...entry.kinds], from: [...entry.from] }] : [];
  });
  return { contains, unknown };
}

function allergensOf(id: string, library: Library): { contains: AllergenOf[]; known: boolean } {
  const { parts, allergens } = ingredientOf(id, library);
  const below = (parts ?? []).map((part) => allergensOf(part, library));
  const stated = typeof allergens === 'string' ? [] : allergens;
  const byParts = parts !== null && parts.length > 0 && below.every(({ known }) => known);
  return {
    contains: [...stated, ...below.flatMap(({ contains }) => contains)],
    known: typeof allergens === 'string' ? allergens === 'by-parts' && byParts : true,
  };
}
