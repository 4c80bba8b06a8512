/**
 * The cases of a quote. Ground meat rises and falls with the animal: its range is that of the animal. What a recipe makes is uncertain
 * on its own besides: then animals and batches are drawn together.
 */
import { seededRandom } from '../../core/stats/random.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { predictDraws, type PredictionRequest, type YieldPrediction } from '../../core/yield/yield.ts';
import type { Instructions, Range } from '../contract/contract.ts';
import { grindLines, type RecipeOfLine } from '../recipes/ordered.ts';
import type { RecipeOutput } from '../recipes/output.ts';
import type { Session } from '../session/session.ts';
import { makeOf, type Making, type Meat, type Outcome } from './grinds.ts';
import { atEnds, drawn, type Scenarios } from './scenarios.ts';

/** One way that it may turn out. */
export interface Case {
  hangingGrams: number;
  /** As it is packed, with what is bought for it. */
  takeHomeGrams: number;
  outcome: Outcome;
}

interface Order {
  wanted: Instructions;
  profile: SpeciesProfile;
  recipeOf: RecipeOfLine;
}

/** Each is priced: the end of an 8-in-10 range lies within about 1.5 points (one standard error) of its level. */
const DRAWS = 400;
/** An animal without a number gets the mean of its species. */
const NOT_YET_IN = 0;

/** @throws ProblemError `fat.unknown`, `fat.too-lean` */
export function casesOf(
  session: Session,
  request: PredictionRequest,
  { hanging, parts }: YieldPrediction,
  { wanted, profile, recipeOf }: Order,
): Scenarios<Case> {
  const trimFat = session.fats.now.trim({ id: NOT_YET_IN, species: profile.code }).mean;
  const recipes = grindLines(wanted).map(recipeOf);
  const make = (meat: Omit<Meat, 'trimFat'>, makings: readonly (Making | null)[]): Outcome =>
    makeOf({ ...meat, trimFat }, wanted, profile, makings);
  const atMiddle = recipes.map((recipe) => recipe && { recipe, yieldShare: recipe.yields.middle });
  const atEnd = (end: keyof Range): Case => {
    const outcome = make(
      { cuts: parts.wholeCuts[end], trim: parts.trim[end], ownFat: parts.fatSaved[end] },
      atMiddle,
    );
    return {
      hangingGrams: hanging[end],
      takeHomeGrams: parts.takeHome[end] + boughtIn(outcome),
      outcome,
    };
  };
  if (recipes.every((recipe) => recipe === null)) return atEnds(atEnd('low'), atEnd('mean'), atEnd('high'));
  const animals = predictDraws(session.yields.model, { ...request, draws: DRAWS });
  const yields = yieldDraws(session, recipes);
  const draws = Array.from({ length: DRAWS }, (_, i): Case => {
    const outcome = make(
      {
        cuts: animals.parts.wholeCuts[i] ?? 0,
        trim: animals.parts.trim[i] ?? 0,
        ownFat: animals.parts.fatSaved[i] ?? 0,
      },
      recipes.map((recipe) => recipe && { recipe, yieldShare: yields.get(recipe)?.[i] ?? 0 }),
    );
    return { hangingGrams: animals.hanging[i] ?? 0, takeHomeGrams: packedIn(outcome), outcome };
  });
  const { outcome, ...mean } = atEnd('mean');
  return drawn({ ...mean, outcome, takeHomeGrams: packedIn(outcome) }, draws, request.level);
}

/** Yields of the next batch of each recipe: grinds of one recipe go into one batch. */
function yieldDraws(
  session: Session,
  recipes: readonly (RecipeOutput | null)[],
): ReadonlyMap<RecipeOutput, readonly number[]> {
  const each = new Set(recipes.filter((recipe) => recipe !== null));
  return new Map(
    [...each].map((recipe) => {
      const random = seededRandom(recipe.recipeId);
      const { recipeId, lossKind } = recipe;
      return [recipe, session.losses.model.draws(String(recipeId), lossKind, DRAWS, random)];
    }),
  );
}

/** Fat and meat that is bought for the grinds. */
export function boughtIn({ grinds }: Outcome): number {
  return grinds.reduce((total, { boughtGrams }) => total + boughtGrams, 0);
}

function packedIn({ cuts, grinds, ownFatKept }: Outcome): number {
  return grinds.reduce((total, { grams }) => total + grams, cuts + ownFatKept);
}
