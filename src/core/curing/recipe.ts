/** A recipe of a made product: the meat block by shares, and what is added per weight of meat. */
import { GRAMS_PER, type MassUnit } from '../values/units.ts';
import { requireFinite, requireFraction, ValidationError } from '../values/validation-error.ts';
import type { Casing } from './casing.ts';
import { requireIngredients, type Library } from './ingredients.ts';

export type MeatKind = 'game' | 'pork' | 'beef' | 'own-fat' | 'other';

export interface MeatPart {
  readonly id: string;
  readonly kind: MeatKind;
  /** As it is called on the label. */
  readonly name: string;
  /** Share of the meat block. */
  readonly share: number;
  /** Fat as bought, as a fraction; null for what the shop learns itself, such as its own trim. */
  readonly fat: number | null;
}

/** An amount as typed: so much per 100 lb or per kg of meat. */
export interface AmountPerMeat {
  readonly value: number;
  readonly unit: MassUnit;
  readonly per: '100 lb' | 'kg';
}

export type Role = 'cure' | 'accelerator' | 'salt' | 'seasoning' | 'binder' | 'water' | 'other';

export interface Addition {
  /** Id in the library of ingredients. */
  readonly ingredient: string;
  readonly role: Role;
  readonly amount: AmountPerMeat;
}

export interface CuringRecipe {
  readonly meat: readonly MeatPart[];
  readonly additions: readonly Addition[];
  readonly casing?: Casing;
}

const MAX_MEAT = 20;
/** A thousand ingredients are a wrong paste, not a recipe. */
export const MAX_ADDITIONS = 100;
/** More than the meat itself of one addition: brine for whole pieces is no addition of a recipe. */
const MOST_OF_ONE = 1;
/** Shares as typed may miss the whole by rounding: a third three times. */
const SHARE_ROUNDING = 0.005;

/**
 * Grams per gram of meat.
 * @throws ValidationError `amount.negative`, `number.not-finite`, `amount.too-much` (above the weight of the meat)
 * @example perGramOfMeat({ value: 4, unit: 'oz', per: '100 lb' }) // 0.0025
 */
export function perGramOfMeat({ value, unit, per }: AmountPerMeat, field = 'amount'): number {
  if (requireFinite(value, field) < 0) throw new ValidationError('amount.negative', field, { value });
  const share = (value * GRAMS_PER[unit]) / (per === 'kg' ? GRAMS_PER.kg : 100 * GRAMS_PER.lb);
  if (share > MOST_OF_ONE) throw new ValidationError('amount.too-much', field, { value });
  return share;
}

/**
 * @throws ValidationError `recipe.no-meat` (also of water alone), `recipe.too-many`, `recipe.shares` (not together 1),
 *   `id.duplicate`, `share.out-of-range`, and those of `perGramOfMeat` and `requireIngredients`
 */
export function requireRecipe({ meat, additions }: CuringRecipe, library: Library): void {
  if (meat.length === 0 || meat.every(({ share }) => share === 0))
    throw new ValidationError('recipe.no-meat', 'meat');
  if (meat.length > MAX_MEAT) throw new ValidationError('recipe.too-many', 'meat', { most: MAX_MEAT });
  if (additions.length > MAX_ADDITIONS)
    throw new ValidationError('recipe.too-many', 'additions', { most: MAX_ADDITIONS });
  requireDistinct(
    meat.map(({ id }) => id),
    'meat',
  );
  requireDistinct(
    additions.map(({ ingredient }) => ingredient),
    'additions',
  );
  meat.forEach(({ share, fat }, i) => {
    requireFraction(share, `meat[${i}].share`);
    if (fat !== null) requireFraction(fat, `meat[${i}].fat`);
  });
  const whole = meat.reduce((sum, { share }) => sum + share, 0);
  if (Math.abs(whole - 1) > SHARE_ROUNDING) throw new ValidationError('recipe.shares', 'meat', { whole });
  additions.forEach(({ amount }, i) => perGramOfMeat(amount, `additions[${i}].amount`));
  requireIngredients(
    additions.map(({ ingredient }) => ingredient),
    library,
  );
}

function requireDistinct(ids: readonly string[], field: string): void {
  const at = ids.findIndex((id, i) => ids.indexOf(id) !== i);
  if (at >= 0) throw new ValidationError('id.duplicate', `${field}[${at}]`, { id: ids[at] ?? '' });
}
