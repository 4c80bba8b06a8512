/** What comes out of a recipe: shares of game, bought meat and additions, and the yield of its next batch. */
import type { RecipeRow } from '../../book/records/smokehouse/recipes.ts';
import type { LossModel } from '../../core/loss/loss.ts';
import type { Made } from '../../core/loss/trim-needed.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { LossForecast, RecipeBody } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { FATS } from '../supplied/resources.ts';
import { lossKind } from '../supplied/smokehouse.ts';
import { sourceNote } from '../supplied/sources.ts';
import { recipeMeat } from './curing-recipe.ts';
import { cardsFor, pantryOf } from './library.ts';
import { bodyOf } from './recipes.ts';
import { reckon } from './reckon.ts';

/** A recipe as orders, quotes and fat needs reckon with it. Shares are of the meat block. */
export interface RecipeOutput extends Made {
  readonly recipeId: number;
  readonly name: string;
  readonly lossKind: string;
  /** The parts of the meat block as the recipe calls them. */
  readonly meat: readonly { name: string; share: number }[];
  readonly yields: LossForecast;
  /** Fat that the owner's animal gives. */
  readonly ownFatShare: number;
  /** What is bought for it; `source` is a fat of the shop's list, or null where none of them is meant. */
  readonly bought: readonly { source: string | null; share: number }[];
}

/** The newest version of a recipe. @throws ProblemError `loss.kind-unknown` */
export function outputOf(session: Session, row: RecipeRow): RecipeOutput {
  const body = bodyOf(row);
  const whole = sumOf(body.meat);
  const share = (of: RecipeBody['meat']): number => sumOf(of) / whole;
  return {
    ...madeFrom(session, row.id, body),
    recipeId: row.id,
    name: row.name,
    lossKind: body.lossKind,
    meat: body.meat.map((part) => ({ name: part.name, share: share([part]) })),
    ownFatShare: share(body.meat.filter(({ kind }) => kind === 'own-fat')),
    bought: body.meat
      .filter(({ kind }) => kind !== 'game' && kind !== 'own-fat')
      .map((part) => ({ source: sourceMeant(part), share: share([part]) })),
  };
}

/** Shares of a recipe and the yield of its next batch, as trim is reckoned from them. */
export function madeFrom(
  session: Session,
  recipeId: number,
  body: RecipeBody,
): Made & { yields: LossForecast } {
  const blockGrams = 100 * GRAMS_PER.kg;
  const whole = sumOf(body.meat);
  const meat = recipeMeat(body).map((part) => ({ ...part, grams: (blockGrams * part.share) / whole }));
  const { smallStep } = session.settings;
  const scales = { smallStep, largeStep: smallStep };
  const { takenGrams } = reckon(body, meat, pantryOf(cardsFor(session, body)), scales);
  return {
    addedShare: takenGrams / blockGrams,
    trimShare: sumOf(body.meat.filter(({ kind }) => kind === 'game')) / whole,
    yields: forecastOf(session, recipeId, body.lossKind),
  };
}

/** Of each model, by recipe and kind of loss: to find a quantile takes longer than the rest of a sheet. */
const forecasts = new WeakMap<LossModel, Map<string, LossForecast>>();

/** The loss of the next batch of a recipe. @throws ProblemError `loss.kind-unknown` */
export function forecastOf(session: Session, recipeId: number, kind: string): LossForecast {
  lossKind(kind);
  const { model } = session.losses;
  const known = forecasts.get(model) ?? new Map<string, LossForecast>();
  forecasts.set(model, known);
  const key = `${recipeId} ${kind}`;
  const found = known.get(key) ?? forecastBy(session, recipeId, kind);
  known.set(key, found);
  return found;
}

function forecastBy({ losses, teachers }: Session, recipeId: number, kind: string): LossForecast {
  const { middle, low, high, level, batches, assumed } = losses.model.forecast(String(recipeId), kind); // prettier-ignore
  return {
    middle,
    low,
    high,
    level,
    batches,
    others: teachers.from.losses,
    assumed: assumed && {
      name: assumed.name,
      low: assumed.low,
      high: assumed.high,
      source: sourceNote(assumed),
    },
  };
}

/** The fat of the shop's list that a part of a recipe means: that of its name, else of its animal the one nearest in fat. */
function sourceMeant({ kind, name, fat }: RecipeBody['meat'][number]): string | null {
  const called = name.toLowerCase();
  const named = FATS.find((one) => one.animal !== 'own' && one.name.toLowerCase() === called);
  if (named || fat === null) return named?.code ?? null;
  const [nearest] = FATS.filter(({ animal }) => animal === kind).toSorted(
    (a, b) => Math.abs(a.fat - fat) - Math.abs(b.fat - fat),
  );
  return nearest?.code ?? null;
}

function sumOf(meat: RecipeBody['meat']): number {
  return meat.reduce((total, { share }) => total + share, 0);
}
