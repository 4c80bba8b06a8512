/** Works a quote: the weight told → hanging weight → parts → products and fat → price, each with its range. */
import { fatToAdd } from '../core/blend.ts';
import { priceLines, type Amounts } from '../core/price.ts';
import { parseReading, readingGrams } from '../core/reading.ts';
import type { SpeciesProfile } from '../core/species.ts';
import { hangingFrom, type WeighedAs } from '../core/yield-convert.ts';
import { predict, type YieldForetold } from '../core/yield.ts';
import { pricesInForce } from './prices.ts';
import { Trouble } from './problem.ts';
import { FATS, ownFatSource } from './resources.ts';
import type { DeskRoom } from './room.ts';
import type { Age, Brought, Instructions, QuoteLine, QuoteResult, Range, Sex } from './shapes.ts';
import { LEVEL } from './yield-knowledge.ts';

export interface QuoteAsked {
  species: string;
  sex: Sex;
  age: Age;
  brought: Brought;
  stage: 'live' | 'dressed' | 'hanging' | 'parts';
  typed: string;
  instructions: Instructions;
}

/** The same question gets the same answer: ranges are drawn from this seed. */
const SEED = 1;
/** An animal that has no number yet is believed to be like others of its species. */
const NOT_YET_IN = 0;
const ENDS = ['low', 'mean', 'high'] as const;
type End = (typeof ENDS)[number];

/** What one end of the ranges comes to, in grams. */
interface Outcome {
  cuts: number;
  grind: number;
  fatBought: number;
  ownFatKept: number;
}

/** @throws CoreProblem `reading.*`; Trouble `species.unknown`, `quote.stage` (pieces are weighed as they are) */
export function workQuote(room: DeskRoom, asked: QuoteAsked): QuoteResult {
  const profile = room.species.of(asked.species);
  const reading = parseReading(asked.typed, room.settings.unit);
  const guess = hangingFrom({ stage: weighedAs(asked), grams: readingGrams(reading), profile, level: LEVEL });
  const { model } = room.yields;
  const foretold = predict(model, {
    hangingGrams: guess.grams,
    hangingLogSd: guess.logSd,
    group: { species: asked.species, brought: asked.brought, sex: asked.sex, age: asked.age },
    cutsShare: asked.instructions.cutsShare,
    level: LEVEL,
    seed: SEED,
  });
  const trimFat = room.fats.now.trim({ id: NOT_YET_IN, species: profile.code }).mean;
  const outcomes = perEnd((end) => outcomeOf(foretold, end, trimFat, profile, asked.instructions));
  const { packageGrams, grindProduct } = asked.instructions;
  const products = [
    { product: 'Whole cuts', grams: rangeOf(outcomes, 'cuts') },
    { product: grindProduct, grams: rangeOf(outcomes, 'grind') },
    { product: 'Own fat, saved', grams: rangeOf(outcomes, 'ownFatKept') },
  ].filter(({ grams }) => grams.high > 0);
  const relatives = [...model.profiles.values()].some(
    ({ code, family }) =>
      family === profile.family && code !== profile.code && (model.animals.get(code) ?? 0) > 0,
  );
  return {
    hangingGrams: { ...foretold.hanging },
    takeHomeGrams: perEnd((end) => foretold.parts.takeHome[end] + outcomes[end].fatBought),
    parts: (['wholeCuts', 'trim', 'fatSaved', 'bone', 'sinew', 'damage', 'shrink'] as const).map((part) => ({
      part,
      grams: { ...foretold.parts[part] },
    })),
    products: products.map((one) => ({
      ...one,
      packages: perEnd((end) => Math.ceil(one.grams[end] / packageGrams)),
    })),
    fatToBuyGrams: rangeOf(outcomes, 'fatBought'),
    price: priceOf(room, asked, foretold, outcomes),
    restsOn: { ownAnimals: foretold.animals, relatives, source: profile.takeHome.source },
  };
}

/** Whole animals may be told by any weight; pieces only by what they weigh themselves. */
function weighedAs({ brought, stage }: QuoteAsked): WeighedAs {
  if (brought === 'whole' || brought === 'skinned') {
    if (stage === 'parts') throw new Trouble('invalid', 'quote.stage', { field: 'stage', with: { brought } });
    return stage;
  }
  if (stage === 'live' || stage === 'dressed')
    throw new Trouble('invalid', 'quote.stage', { field: 'stage', with: { brought } });
  return brought === 'boned' ? 'boned' : 'quarters';
}

function outcomeOf(
  foretold: YieldForetold,
  end: End,
  trimFat: number,
  profile: SpeciesProfile,
  wanted: Instructions,
): Outcome {
  const trim = foretold.parts.trim[end];
  const own = foretold.parts.fatSaved[end];
  const need = wanted.fat === 'none' || trim <= 0 ? 0 : fatNeeded(trim, trimFat, profile, wanted);
  const used = wanted.fat === 'own' ? Math.min(own, wanted.targetFat === null ? own : need) : need;
  const bought = wanted.fat === 'own' ? 0 : used;
  return {
    cuts: foretold.parts.wholeCuts[end],
    grind: trim + used,
    fatBought: bought,
    ownFatKept: wanted.fat === 'own' ? own - used : own,
  };
}

function fatNeeded(
  trim: number,
  trimFat: number,
  profile: SpeciesProfile,
  { fat, targetFat }: Instructions,
): number {
  if (targetFat === null) return 0;
  const source = fat === 'own' ? ownFatSource(profile) : FATS.find(({ code }) => code === fat);
  if (!source)
    throw new Trouble('missing', 'fat.unknown', { field: 'instructions.fat', with: { source: fat } });
  const add = fatToAdd({ leanGrams: trim, leanFat: trimFat, fatFat: source.fat, targetFat });
  if (add.kind === 'out of reach')
    throw new Trouble('invalid', 'fat.too-lean', {
      field: 'instructions.targetFat',
      with: { fat: source.fat, source: source.name },
    });
  return add.kind === 'add' ? add.grams : 0;
}

function priceOf(
  room: DeskRoom,
  asked: QuoteAsked,
  foretold: YieldForetold,
  outcomes: Record<End, Outcome>,
): QuoteResult['price'] {
  const book = pricesInForce(room);
  if (!book) return null;
  const byProduct = book.lines.some(
    ({ basis, product }) => basis === 'product' && product === asked.instructions.grindProduct,
  );
  const charges = perEnd((end) => {
    const { cuts, grind, fatBought } = outcomes[end];
    const amounts: Amounts = {
      species: asked.species,
      brought: asked.brought,
      hangingGrams: foretold.hanging[end],
      groundGrams: byProduct ? 0 : grind,
      products: byProduct ? { [asked.instructions.grindProduct]: grind } : {},
      fats: fatBought > 0 ? { [asked.instructions.fat]: fatBought } : {},
      packages:
        Math.ceil(cuts / asked.instructions.packageGrams) +
        Math.ceil(grind / asked.instructions.packageGrams),
      extras: asked.instructions.extras,
    };
    return priceLines({ lines: book.lines, amounts, taxRule: book.taxRule });
  });
  const shown = charges.high.lines.filter(({ basis }) => basis !== 'minimum');
  if (shown.length === 0) return null;
  const codes = [...new Set(ENDS.flatMap((end) => charges[end].lines.map(({ code }) => code)))];
  const lines: QuoteLine[] = codes.map((code) => ({
    code,
    label: book.lines.find((line) => line.code === code)?.label ?? code,
    ...perEnd((end) => charges[end].lines.find((line) => line.code === code)?.amountMinor ?? 0),
  }));
  if (charges.high.taxMinor > 0)
    lines.push({ code: 'tax', label: 'Tax', ...perEnd((end) => charges[end].taxMinor) });
  return {
    currency: book.currency,
    lines,
    ...perEnd((end) => charges[end].totalMinor),
    exampleBook: book.example,
  };
}

function rangeOf(outcomes: Record<End, Outcome>, part: keyof Outcome): Range {
  return perEnd((end) => outcomes[end][part]);
}

function perEnd<T>(work: (end: End) => T): Record<End, T> {
  return { low: work('low'), mean: work('mean'), high: work('high') };
}
