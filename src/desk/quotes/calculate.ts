/** Calculates a quote: given weight → hanging weight → parts → products and fat → price, each with its range. */
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams } from '../../core/values/reading.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { hangingFrom, type WeighedAs } from '../../core/yield/convert.ts';
import { predict } from '../../core/yield/yield.ts';
import { normalizeOrders } from '../animal/orders.ts';
import { ProblemError } from '../contract/problem.ts';
import { productCards } from '../pricing/products-shelf.ts';
import { makeOf, type Outcome } from './grinds.ts';
import { priceQuote } from './price.ts';
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
/** An animal without a number gets the mean of its species. */
const NOT_YET_IN = 0;
type End = keyof Range;

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
  const prediction = predict(model, {
    hangingGrams: guess.grams,
    hangingLogSd: guess.logSd,
    group: { species: input.species, brought: input.brought, sex: input.sex, age: input.age },
    cutsShare: wanted.cutsShare,
    cutsDeviation: cutsOff,
    level: LEVEL,
    seed: SEED,
  });
  const { parts } = prediction;
  const trimFat = session.fats.now.trim({ id: NOT_YET_IN, species: profile.code }).mean;
  const outcomes = perEnd((end) => {
    const meat = { cuts: parts.wholeCuts[end], trim: parts.trim[end], ownFat: parts.fatSaved[end], trimFat };
    return makeOf(meat, wanted, profile);
  });
  const products = productsOf(session, wanted, outcomes);
  const fatToBuyGrams = perEnd((end) => sum(outcomes[end].grinds.map(({ boughtGrams }) => boughtGrams)));
  const relatives = [...model.profiles.values()].some(
    ({ code, family }) =>
      family === profile.family && code !== profile.code && (model.animals.get(code) ?? 0) > 0,
  );
  return {
    hangingGrams: { ...prediction.hanging },
    unlikely: unlikelyFor(profile, input, prediction.hanging),
    takeHomeGrams: perEnd((end) => parts.takeHome[end] + fatToBuyGrams[end]),
    parts: (['wholeCuts', 'trim', 'fatSaved', 'bone', 'sinew', 'damage', 'shrink'] as const).map((part) => ({
      part,
      grams: { ...parts[part] },
    })),
    products,
    fatToBuyGrams,
    price: priceQuote(session, {
      species: input.species,
      brought: input.brought,
      extras: wanted.pricedExtras,
      adjustments: input.adjustments,
      ends: perEnd((end) => ({
        hangingGrams: prediction.hanging[end],
        outcome: outcomes[end],
        packages: sum(
          products.filter(({ product }) => product !== OWN_FAT).map(({ packages }) => packages[end]),
        ),
      })),
    }),
    restsOn: {
      ownAnimals: prediction.animals,
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

const WHOLE_CUTS = 'Whole cuts';
const OWN_FAT = 'Own fat, saved';

/** Meat that goes home, by product and package; grinds besides the main one are packed in the shop's usual size. */
function productsOf(
  session: Session,
  wanted: Instructions,
  outcomes: Record<End, Outcome>,
): QuoteResult['products'] {
  const cards = productCards(session);
  const gramsOf = (product: string, end: End): number => {
    const { cuts, grinds, ownFatKept } = outcomes[end];
    if (product === WHOLE_CUTS) return cuts;
    if (product === OWN_FAT) return ownFatKept;
    return sum(grinds.filter((grind) => grind.product === product).map(({ grams }) => grams));
  };
  const grinds = [...wanted.alsoGround.map(({ product }) => product), wanted.grindProduct];
  return [...new Set([WHOLE_CUTS, ...grinds, OWN_FAT])]
    .map((product) => {
      const usual = cards.find(({ name }) => name === product)?.packageGrams;
      const beside = product !== wanted.grindProduct && grinds.includes(product);
      const packageGrams = beside ? (usual ?? wanted.packageGrams) : wanted.packageGrams;
      const grams = perEnd((end) => gramsOf(product, end));
      const pattyGrams = pattyOf(wanted, product);
      return {
        product,
        grams,
        packages: perEnd((end) => Math.ceil(grams[end] / packageGrams)),
        patties: pattyGrams === null ? null : perEnd((end) => Math.floor(grams[end] / pattyGrams)),
      };
    })
    .filter(({ grams }) => grams.high > 0);
}

/** Patty weight of this product, or null if it is packed in bulk. */
function pattyOf({ grindProduct, pattyGrams, alsoGround }: Instructions, product: string): number | null {
  if (product === grindProduct) return pattyGrams;
  return alsoGround.find((one) => one.product === product)?.pattyGrams ?? null;
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

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}

function perEnd<T>(work: (end: End) => T): Record<End, T> {
  return { low: work('low'), mean: work('mean'), high: work('high') };
}
