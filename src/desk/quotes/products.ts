/** Meat that goes home, by product and package. */
import { trimNeeded } from '../../core/loss/trim-needed.ts';
import { toGrams } from '../../core/values/units.ts';
import type { Instructions, QuotedRecipe, QuoteResult, Range } from '../contract/contract.ts';
import { productCards } from '../pricing/products-shelf.ts';
import { grindLines, type RecipeOfLine } from '../recipes/ordered.ts';
import type { RecipeOutput } from '../recipes/output.ts';
import type { Session } from '../session/session.ts';
import type { Outcome } from './grinds.ts';
import type { Scenarios } from './scenarios.ts';

const WHOLE_CUTS = 'Whole cuts';
const OWN_FAT = 'Own fat, saved';
/** Of a product, for the sentence that tells how much trim it takes; pounds or kilograms. */
const ROUND_WEIGHT = 10;

type Product = QuoteResult['products'][number];

/** A product with the packages that it makes of so many grams. */
interface Listed {
  product: string;
  recipe: RecipeOutput | null;
  packageGrams: number;
  pattyGrams: number | null;
}

/** Grinds besides the main one are packed in the shop's usual size. */
export function listedOf(session: Session, wanted: Instructions, recipeOf: RecipeOfLine): Listed[] {
  const cards = productCards(session);
  const lines = grindLines(wanted).map((line) => ({ product: line.product, recipe: recipeOf(line) }));
  const seen = new Map(lines.map((line) => [keyOf(line.product, line.recipe?.recipeId ?? null), line]));
  return [{ product: WHOLE_CUTS, recipe: null }, ...seen.values(), { product: OWN_FAT, recipe: null }].map(
    ({ product, recipe }) => {
      const usual = cards.find(({ name }) => name === product)?.packageGrams;
      const beside = product !== wanted.grindProduct && lines.some((line) => line.product === product);
      return {
        product,
        recipe,
        packageGrams: beside ? (usual ?? wanted.packageGrams) : wanted.packageGrams,
        pattyGrams: pattyOf(wanted, product),
      };
    },
  );
}

/** Packages of everything that is packed. */
export function packagesIn(outcome: Outcome, listed: readonly Listed[]): number {
  return listed
    .filter(({ product }) => product !== OWN_FAT)
    .reduce((total, one) => total + Math.ceil(gramsIn(outcome, one) / one.packageGrams), 0);
}

export function productsOf(
  session: Session,
  listed: readonly Listed[],
  outcomes: Scenarios<Outcome>,
): QuoteResult['products'] {
  return listed
    .map((one): Product => {
      const { product, packageGrams, pattyGrams, recipe } = one;
      return {
        product,
        grams: outcomes.range((outcome) => gramsIn(outcome, one)),
        packages: whole(outcomes.range((outcome) => Math.ceil(gramsIn(outcome, one) / packageGrams))),
        patties:
          pattyGrams === null
            ? null
            : whole(outcomes.range((outcome) => Math.floor(gramsIn(outcome, one) / pattyGrams))),
        recipe: recipe && recipeQuoted(session, one, recipe, outcomes),
      };
    })
    .filter(({ grams }) => grams.high > 0);
}

function recipeQuoted(
  session: Session,
  listed: Listed,
  recipe: RecipeOutput,
  outcomes: Scenarios<Outcome>,
): QuotedRecipe {
  const finishedGrams = toGrams(ROUND_WEIGHT, session.settings.unit);
  const { low, middle, high } = trimNeeded(finishedGrams, recipe);
  return {
    recipeId: recipe.recipeId,
    name: recipe.name,
    trimGrams: outcomes.range((outcome) => grindIn(outcome, listed)?.trimGrams ?? 0),
    boughtGrams: outcomes.range((outcome) => grindIn(outcome, listed)?.boughtGrams ?? 0),
    takes: { finishedGrams, trim: { low, middle, high } },
    forecast: recipe.yields,
  };
}

function gramsIn(outcome: Outcome, listed: Listed): number {
  if (listed.product === WHOLE_CUTS) return outcome.cuts;
  if (listed.product === OWN_FAT) return outcome.ownFatKept;
  return grindIn(outcome, listed)?.grams ?? 0;
}

function grindIn({ grinds }: Outcome, { product, recipe }: Listed): Outcome['grinds'][number] | undefined {
  const key = keyOf(product, recipe?.recipeId ?? null);
  return grinds.find((grind) => keyOf(grind.product, grind.recipeId) === key);
}

function keyOf(product: string, recipeId: number | null): string {
  return `${recipeId ?? ''} ${product}`;
}

/** Counts between two cases are whole. */
function whole({ low, mean, high }: Range): Range {
  return { low: Math.round(low), mean, high: Math.round(high) };
}

/** Patty weight of this product, or null if it is packed in bulk. */
function pattyOf({ grindProduct, pattyGrams, alsoGround }: Instructions, product: string): number | null {
  if (product === grindProduct) return pattyGrams;
  return alsoGround.find((one) => one.product === product)?.pattyGrams ?? null;
}
