/** Calculates a quote: given weight → hanging weight → parts → products and fat → price, each with its range. */
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams } from '../../core/values/reading.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { hangingFrom, type WeighedAs } from '../../core/yield/convert.ts';
import { predict, type PredictionRequest } from '../../core/yield/yield.ts';
import { normalizeOrders } from '../animal/orders.ts';
import { ProblemError } from '../contract/problem.ts';
import { recipesOfOrders } from '../recipes/ordered.ts';
import { boughtIn, casesOf } from './cases.ts';
import { priceQuote } from './price.ts';
import { listedOf, packagesIn, productsOf } from './products.ts';
import type { Session } from '../session/session.ts';
import { sourceNote } from '../supplied/sources.ts';
import type {
  AdjustmentInput,
  Age,
  Brought,
  Instructions,
  QuoteResult,
  Range,
  Sex,
} from '../contract/contract.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

export interface QuoteInput {
  species: string;
  sex: Sex;
  age: Age;
  brought: Brought;
  /** Pieces, if only part of the animal comes; empty if all of it comes or nobody knows. */
  parts: readonly { primal: string; count: number }[];
  stage: 'live' | 'dressed' | 'legs off' | 'hanging' | 'parts';
  typed: string;
  instructions: Instructions;
  /** Departures from the price book; the bill of the resulting animal applies them too. */
  adjustments: readonly AdjustmentInput[];
}

/** Fixed seed, so that the same input gets the same ranges. */
const SEED = 1;

/** @throws ValidationError `reading.*`; ProblemError `species.unknown`, `primal.unknown`, `quote.stage`, `fat.*`, `adjustment.line`, `price.discount-over-all` */
export function calculateQuote(session: Session, input: QuoteInput): QuoteResult {
  const profile = session.species.of(input.species);
  const wanted = normalizeOrders(profile, input.parts, input.instructions);
  const reading = parseLoads(input.typed, session.settings.unit);
  const guess = hangingFrom({
    stage: weighedAs(input),
    grams: readingGrams(reading),
    profile,
    sex: input.sex,
    level: LEVEL,
  });
  const { model, cutsOff } = session.yields;
  const request: PredictionRequest = {
    hangingGrams: guess.grams,
    hangingLogSd: guess.logSd,
    group: { species: input.species, brought: input.brought, sex: input.sex, age: input.age },
    cutsShare: wanted.cutsShare,
    cutsDeviation: cutsOff,
    level: LEVEL,
    seed: SEED,
  };
  const prediction = predict(model, request);
  const { parts } = prediction;
  const recipeOf = recipesOfOrders(session);
  const listed = listedOf(session, wanted, recipeOf);
  const cases = casesOf(session, request, prediction, { wanted, profile, recipeOf });
  const fatToBuyGrams = cases.range(({ outcome }) => boughtIn(outcome));
  const relatives = [...model.profiles.values()].some(
    ({ code, family }) =>
      family === profile.family && code !== profile.code && (model.animals.get(code) ?? 0) > 0,
  );
  return {
    hangingGrams: { ...prediction.hanging },
    unlikely: unlikelyFor(profile, input, prediction.hanging),
    takeHomeGrams: cases.range(({ takeHomeGrams }) => takeHomeGrams),
    parts: (['wholeCuts', 'trim', 'fatSaved', 'bone', 'sinew', 'damage', 'shrink'] as const).map((part) => ({
      part,
      grams: { ...parts[part] },
    })),
    products: productsOf(
      session,
      listed,
      cases.map(({ outcome }) => outcome),
    ),
    fatToBuyGrams,
    price: priceQuote(session, {
      species: input.species,
      brought: input.brought,
      extras: wanted.pricedExtras,
      adjustments: input.adjustments,
      cases: cases.map(({ hangingGrams, outcome }) => ({
        hangingGrams,
        outcome,
        packages: packagesIn(outcome, listed),
      })),
    }),
    restsOn: {
      ownAnimals: prediction.animals,
      others: session.teachers.from.yields,
      relatives,
      takeHome: sourceNote(profile.takeHome),
      weight: guess.from && sourceNote(guess.from),
    },
  };
}

/** A whole animal that no scale has shown yet is more often a slip than an animal. */
function unlikelyFor(
  { hangingGrams: { least, most } }: SpeciesProfile,
  { brought, parts }: QuoteInput,
  { low, high }: Range,
): QuoteResult['unlikely'] {
  if (!isWholeCarcass(brought) || parts.length > 0) return null;
  return high < least || low > most ? { least, most } : null;
}

/** A whole animal can be quoted by any weight, pieces only by their own. */
function weighedAs({ brought, stage }: QuoteInput): WeighedAs {
  if (isWholeCarcass(brought)) {
    if (stage === 'parts')
      throw new ProblemError('invalid', 'quote.stage', { field: 'stage', with: { brought } });
    return stage;
  }
  if (stage !== 'hanging' && stage !== 'parts')
    throw new ProblemError('invalid', 'quote.stage', { field: 'stage', with: { brought } });
  return brought === 'boned' ? 'boned' : 'quarters';
}
