/** What is made of an animal's meat: cuts, each grind with its fat or by its recipe, and leftover own fat. */
import { fatToAdd } from '../../core/blend/blend.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { ProblemError } from '../contract/problem.ts';
import type { RecipeOutput } from '../recipes/output.ts';
import { FATS, ownFatSource } from '../supplied/resources.ts';
import type { AlsoGround, Instructions } from '../contract/contract.ts';

/** Predicted meat in grams; `trimFat` is the fat of the trim, as a fraction. */
export interface Meat {
  cuts: number;
  trim: number;
  ownFat: number;
  trimFat: number;
}

/** A grind by a recipe; `yieldShare` is finished ÷ raw. */
export interface Making {
  recipe: RecipeOutput;
  yieldShare: number;
}

/** In grams. */
interface GrindMade {
  product: string;
  /** The recipe that it is made by; null: ground and packed as it is. */
  recipeId: number | null;
  trimGrams: number;
  /** As it is packed. */
  grams: number;
  /** All fat and meat that is bought for it. */
  boughtGrams: number;
  /** The part of it that is a fat of the shop's list, by its code. */
  fats: Record<string, number>;
}

export interface Outcome {
  cuts: number;
  /** One per product and recipe; a product ordered twice is merged. */
  grinds: GrindMade[];
  ownFatKept: number;
}

type GrindOrder = Pick<AlsoGround, 'product' | 'fat' | 'targetFat'>;

/**
 * Allocates the trim: first to grinds with an amount of their own, as far as it goes, the rest to the main grind. The
 * animal's own fat is allocated in the same order. Ground meat conserves mass: cuts + grinds + leftover own fat = cuts + trim +
 * own fat + bought fat; a recipe adds its ingredients and multiplies by its yield.
 * @param makings of the grinds in the order of the work (`grindLines`); null for one that is only ground
 * @throws ProblemError `fat.unknown`, `fat.too-lean`
 */
export function makeOf(
  meat: Meat,
  wanted: Instructions,
  profile: SpeciesProfile,
  makings: readonly (Making | null)[] = [],
): Outcome {
  const grinds: GrindMade[] = [];
  let trim = meat.trim;
  let ownFat = meat.ownFat;
  const make = (order: GrindOrder, lean: number, making: Making | null, field: string): void => {
    if (lean <= 0) return;
    trim -= lean;
    const { own, ...made } = making
      ? madeBy(making, lean, ownFat)
      : ground(lean, { ownFat, trimFat: meat.trimFat }, order, profile, field);
    ownFat -= own;
    addTo(grinds, {
      product: order.product,
      recipeId: making?.recipe.recipeId ?? null,
      trimGrams: lean,
      ...made,
    });
  };
  for (const [i, also] of wanted.alsoGround.entries())
    make(also, Math.min(also.grams, trim), makings[i] ?? null, `instructions.alsoGround[${i}]`);
  const rest = makings[wanted.alsoGround.length] ?? null;
  make({ ...wanted, product: wanted.grindProduct }, trim, rest, 'instructions');
  return { cuts: meat.cuts, grinds, ownFatKept: ownFat };
}

type Made = Pick<GrindMade, 'grams' | 'boughtGrams' | 'fats'> & { own: number };

/** The block that so much game makes, with all that the recipe adds to it, after its loss. */
function madeBy({ recipe, yieldShare }: Making, lean: number, ownFat: number): Made {
  const block = lean / recipe.trimShare;
  const own = Math.min(ownFat, block * recipe.ownFatShare);
  const fats: Record<string, number> = {};
  let boughtGrams = 0;
  for (const { source, share } of recipe.bought) {
    boughtGrams += block * share;
    if (source !== null) fats[source] = (fats[source] ?? 0) + block * share;
  }
  const raw = (lean + own + boughtGrams) * (1 + recipe.addedShare);
  return { own, boughtGrams, fats, grams: raw * yieldShare };
}

function ground(
  lean: number,
  { ownFat, trimFat }: Pick<Meat, 'ownFat' | 'trimFat'>,
  order: GrindOrder,
  profile: SpeciesProfile,
  field: string,
): Made {
  const need = fatNeeded(lean, trimFat, order, profile, field);
  const own = order.fat !== 'own' ? 0 : Math.min(ownFat, order.targetFat === null ? ownFat : need);
  const boughtGrams = order.fat === 'own' ? 0 : need;
  return {
    own,
    boughtGrams,
    fats: boughtGrams > 0 ? { [order.fat]: boughtGrams } : {},
    grams: lean + own + boughtGrams,
  };
}

function addTo(grinds: GrindMade[], made: GrindMade): void {
  const same = grinds.find(({ product, recipeId }) => product === made.product && recipeId === made.recipeId);
  if (!same) {
    grinds.push(made);
    return;
  }
  same.trimGrams += made.trimGrams;
  same.grams += made.grams;
  same.boughtGrams += made.boughtGrams;
  for (const [source, grams] of Object.entries(made.fats))
    same.fats[source] = (same.fats[source] ?? 0) + grams;
}

function fatNeeded(
  lean: number,
  leanFat: number,
  { fat, targetFat }: GrindOrder,
  profile: SpeciesProfile,
  field: string,
): number {
  if (fat === 'none') return 0;
  const source = fat === 'own' ? ownFatSource(profile) : FATS.find(({ code }) => code === fat);
  if (!source)
    throw new ProblemError('missing', 'fat.unknown', { field: `${field}.fat`, with: { source: fat } });
  if (targetFat === null) return 0;
  const add = fatToAdd({ leanGrams: lean, leanFat, fatFat: source.fat, targetFat });
  if (add.kind === 'out of reach')
    throw new ProblemError('invalid', 'fat.too-lean', {
      field: `${field}.targetFat`,
      with: { fat: source.fat, source: source.name },
    });
  return add.kind === 'add' ? add.grams : 0;
}
