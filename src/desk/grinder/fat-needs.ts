/** Predicts how much of each bought fat is needed for the animals in the shop and for open quotes. */
import * as v from 'valibot';
import type { HookRow } from '../../book/records/animals.ts';
import { normalQuantile } from '../../core/stats/distributions.ts';
import { fatNeed, recipeNeed, sumNeeds, toOrder, type NeedEstimate } from '../../core/fat/needs.ts';
import { meanOf, predictPart, type Group } from '../../core/yield/yield.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { trimOf } from '../learning/fat-estimates.ts';
import { keepsOf } from './fat-keeps.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { grindWants } from './grind-wants.ts';
import { openRecipeNeeds } from './recipe-needs.ts';
import { grindLines, recipesOfOrders, type RecipeOfLine } from '../recipes/ordered.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { QuoteInput } from '../quotes/calculate.ts';
import { FATS } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { FatNeeds, GrindWant, Instructions, QuoteResult } from '../contract/contract.ts';
import { baseGrams } from '../learning/take-home.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';
import { groupOf } from '../learning/yield-observation.ts';

const SEED = 1;
/** Enough for a sum over many animals. */
const DRAWS = 500;
/** Half the width of an 80 % range, in standard deviations. */
const REACH = normalQuantile((1 + LEVEL) / 2);
const QUOTES = 200;

/** Predicted trim in grams; `sharedSd` is the part of `sd` that all animals of the species share. */
interface TrimToCome {
  mean: number;
  sd: number;
  sharedSd: number;
}

/** Fat needed for one animal or quote, or for a grind that a recipe was opened on, by fat code. */
interface Wanted {
  animal: { id: number; species: string };
  /** Animals that it is for. */
  animals: number;
  needs: Map<string, NeedEstimate[]>;
}

export const getNeeds = readAfterLearning(v.object({}), (session): FatNeeds => {
  const unweighed: string[] = [];
  const recipeOf = recipesOfOrders(session);
  const inShop: Wanted[] = [];
  for (const row of session.book.animals
    .inShop()
    .filter(({ stage, hold }) => stage !== 'ready' && hold !== 'positive')) {
    const trim = trimToCome(session, row);
    const orders = instructionsOf(session, row.id);
    if (trim === null) {
      if (wantsBought(orders, recipeOf)) unweighed.push(row.ticket);
    } else
      inShop.push(
        wantedOf(
          session,
          row,
          trim,
          grindWants(orders, session.book.sums.trimInto(row.id), trim.mean, ROUNDING_TOLERANCE_GRAMS),
          recipeOf,
        ),
      );
  }
  for (const { animals, needs } of openRecipeNeeds(session)) {
    const [animal] = animals;
    if (animal)
      inShop.push({
        animal,
        animals: animals.length,
        needs: new Map([...needs].map(([source, need]) => [source, [need]])),
      });
  }
  const quoted = openQuotes(session, recipeOf);
  const sources = FATS.filter(({ animal }) => animal !== 'own').flatMap(({ code, name, sd }) => {
    const of = (all: readonly Wanted[]) => all.filter(({ needs }) => needs.has(code));
    const [shopNeeds, quoteNeeds] = [of(inShop), of(quoted)];
    if (shopNeeds.length === 0 && quoteNeeds.length === 0) return [];
    const need = together(session, shopNeeds, { code, sd });
    const onHandGrams = onHand(session, code);
    return [{
      source: code, name, animals: shopNeeds.reduce((total, { animals }) => total + animals, 0), need, onHandGrams, order: toOrder(need, onHandGrams),
      quotes: { count: quoteNeeds.length, need: together(session, quoteNeeds, { code, sd }) },
    }]; // prettier-ignore
  });
  return { sources, unweighed };
});

/**
 * Total need of one fat. Trim of a kind shares the error of the kind's mean; all grinds share the error of the fat.
 */
function together(session: Session, wanted: readonly Wanted[], fat: { code: string; sd: number }) {
  const animals = wanted.map(({ animal, needs }) => ({
    species: animal.species,
    needs: needs.get(fat.code) ?? [],
  }));
  const trims = wanted.map(({ animal }) => trimOf(animal));
  return sumNeeds(animals, LEVEL, {
    trimFatSd: (weights) =>
      session.fats.now.sdOfSum(trims.map((of, i) => ({ of, weight: weights[i] as number }))),
    fatFatSd: fat.sd,
  });
}

/** Unground trim of an animal: weighed, or predicted before cutting; null before any weight. */
function trimToCome(session: Session, row: HookRow): TrimToCome | null {
  const sums = session.book.weighings.sums(row.id);
  const left = Math.max(0, (sums?.trim ?? 0) - (sums?.trim_ground ?? 0));
  if (row.stage === 'packing') return weighedTrim(left);
  const base = baseGrams({
    brought: row.brought,
    hanging: sums?.hanging ?? null,
    received: sums?.received ?? null,
  });
  if (base === null) return sums?.trim ? weighedTrim(left) : null;
  const trim = predictPart(
    session.yields.model,
    {
      hangingGrams: base,
      group: groupOf(row),
      cutsShare: instructionsOf(session, row.id).cutsShare,
      level: LEVEL,
      seed: SEED,
      draws: DRAWS,
    },
    'trim',
  );
  const weighed = sums?.trim ?? 0;
  // A weighed amount above the prediction replaces it.
  if (weighed >= trim.mean) return weighedTrim(left);
  const sd = (trim.high - trim.low) / (2 * REACH);
  const mean = Math.max(0, trim.mean - (sums?.trim_ground ?? 0));
  return { mean, sd, sharedSd: sharedSd(session, groupOf(row), { mean: trim.mean, sd }) };
}

function weighedTrim(left: number): TrimToCome {
  return { mean: left, sd: 0, sharedSd: 0 };
}

/**
 * The part of a predicted trim's SD that comes from the uncertain mean take-home of its kind, which does not average
 * out over animals. By the delta method on the logit scale, d share / share = (1 − share) × d logit.
 */
function sharedSd(session: Session, group: Group, trim: { mean: number; sd: number }): number {
  const { location, standardError } = meanOf(session.yields.model, group, 'takeHome');
  return Math.min(trim.sd, (trim.mean * standardError) / (1 + Math.exp(location)));
}

/** Only the remaining trim is uncertain; grinds with an amount of their own are not. What is made by a recipe takes the recipe's meat. */
function wantedOf(
  session: Session,
  animal: { id: number; species: string },
  trim: TrimToCome,
  wants: readonly GrindWant[],
  recipeOf: RecipeOfLine,
): Wanted {
  const needs: Wanted['needs'] = new Map();
  const trimFat = session.fats.now.trim(animal);
  const add = (source: string, need: NeedEstimate): void =>
    void needs.set(source, [...(needs.get(source) ?? []), need]);
  for (const [i, want] of wants.entries()) {
    const { fat, targetFat, grams } = want;
    const rest = i === wants.length - 1;
    const weight = { mean: grams, sd: rest ? trim.sd : 0, sharedSd: rest ? trim.sharedSd : 0 };
    const recipe = recipeOf(want);
    if (recipe) {
      for (const { source, share } of recipe.bought)
        if (source !== null) add(source, recipeNeed(weight, share / recipe.trimShare));
      continue;
    }
    const source = FATS.find(({ code, animal: of }) => code === fat && of !== 'own');
    if (!source || targetFat === null || source.fat <= targetFat) continue;
    add(source.code, fatNeed({ trim: weight, trimFat, fatFat: source.fat, target: targetFat }));
  }
  return { animal, animals: 1, needs };
}

/** Valid quotes without an animal. */
function openQuotes(session: Session, recipeOf: RecipeOfLine): Wanted[] {
  return session.book.quotes
    .recent(QUOTES)
    .filter(
      (quote) => quote.valid_until >= session.today() && session.book.quotes.takenAs(quote.id) === undefined,
    )
    .map((quote) => {
      const { instructions, ...input } = JSON.parse(quote.asked) as QuoteInput;
      const { parts } = JSON.parse(quote.answered) as QuoteResult;
      const grams = parts.find(({ part }) => part === 'trim')?.grams ?? { low: 0, mean: 0, high: 0 };
      const weight = { mean: grams.mean, sd: (grams.high - grams.low) / (2 * REACH) };
      const trim = { ...weight, sharedSd: sharedSd(session, groupOf(input), weight) };
      return wantedOf(
        session,
        { id: -quote.id, species: input.species },
        trim,
        grindWants(instructions, [], trim.mean, ROUNDING_TOLERANCE_GRAMS),
        recipeOf,
      );
    });
}

function wantsBought(orders: Instructions, recipeOf: RecipeOfLine): boolean {
  const bought = (code: string): boolean => FATS.some((one) => one.code === code && one.animal !== 'own');
  const { fat, alsoGround } = orders;
  const fats = [...alsoGround.map((also) => also.fat), fat];
  return grindLines(orders).some((line, i) => {
    const recipe = recipeOf(line);
    return recipe ? recipe.bought.some(({ source }) => source !== null) : bought(fats[i] ?? '');
  });
}

function onHand(session: Session, source: string): number {
  return session.book.fat
    .withLeft(0)
    .filter((lot) => lot.animal_id === null && lot.source === source && keepsOf(session, lot) !== 'past')
    .reduce((total, { left_grams }) => total + left_grams, 0);
}
