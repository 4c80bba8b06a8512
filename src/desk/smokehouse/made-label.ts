/** What the label of a made product says: by what was done with it, and never more than is proven. */
import * as v from 'valibot';
import { GROUND_HEAT } from '../../core/cold/ground-heat.ts';
import { labelLines, type LabelPart, type WentIn } from '../../core/curing/label.ts';
import type { LabelIngredient, MadeLabel, RecipeBody, SmokeFinding } from '../contract/contract.ts';
import { id } from '../input/input.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { animalOf, batchOf } from '../animal/closed.ts';
import { hunterCard, hunterOf } from '../animal/hunters.ts';
import { pantryOf } from '../recipes/library.ts';
import { madeOf, recipeOf, startedOf, sumsOf, type Started } from './made-batch.ts';
import { madeOwners } from './made-owners.ts';
import { proofOf } from './proof.ts';
import { allergensIn } from '../recipes/recipe-check.ts';
import { ofWeighed, weighedGrams } from './weighed.ts';

/**
 * Water activity at which a dried product may be kept where air can get to it (jerky guideline of FSIS, 2014, second-hand; 0.91 in a
 * vacuum pack with an oxygen barrier, which is not offered).
 */
const SHELF_STABLE_ACTIVITY = 0.85;

/** @throws ProblemError `made.unknown`, `made.voided`, `made.not-started` */
export const label = read(v.object({ id }), (session, input): MadeLabel => {
  const made = madeOf(session, input.id);
  const started = startedOf(session, made);
  const { product, body } = recipeOf(session, made);
  const sums = weighedGrams(session.book.madeWeights.weighed(made.id));
  const found = ofWeighed(started, sums);
  const proof = proofOf(session, made, body);
  const pantry = pantryOf(started.cards);
  const { contains, unknown } = allergensIn(body, pantry);
  const owners = madeOwners(session, made);
  const packs = session.book.madeWeights.packages(made.id);
  const { packages, packed } = sumsOf(session, made.id);
  const { keep, findings } = keptHow(session, made.id, body, proof.readyToEat);
  const cures = started.cards.flatMap(({ cure }) => cure ?? []);
  return {
    madeId: made.id,
    name: made.name,
    batch: batchOf(session, made.batch_id).name,
    product,
    state: proof.readyToEat ? 'ready to eat' : body.finish,
    keep,
    proof,
    cookTo: proof.readyToEat ? null : { f: GROUND_HEAT.f, c: GROUND_HEAT.c },
    ingredients: ingredientsOf(started, sums, found.pickleShare).map(shown),
    allergens: { contains: contains.map(({ allergen, kinds }) => ({ allergen, kinds })), unknown },
    cure:
      cures.length === 0
        ? null
        : {
            nitrite: cures.some(({ nitrite }) => (nitrite ?? 0) > 0),
            nitrate: cures.some(({ nitrate }) => (nitrate ?? 0) > 0),
            accelerator: cures.some(({ accelerator }) => (accelerator ?? 0) > 0),
          },
    notForSale: true,
    species: [...started.species],
    owners: owners.map(({ animalId, ticket, hunter, packages: count }) => ({
      ticket,
      hunter,
      language: hunterCard(hunterOf(session, animalOf(session, animalId).hunter_id)).language,
      packages: count,
    })),
    packages,
    packedGrams: packed,
    on: session.dayOf(packs.at(-1)?.at ?? session.now()),
    findings: [...found.findings, ...findings],
  };
});

/** By weight as it went in: meat, and what was weighed of each ingredient, else what was asked for. */
function ingredientsOf(
  { sheet, cards, meat }: Started,
  sums: ReadonlyMap<string, number>,
  pickleShare: number,
): LabelPart[] {
  const wentIn: WentIn[] = [
    ...meat.map(({ name, grams }) => ({ meat: name, grams })),
    ...sheet.amounts.map(({ ingredientId, grams, into }) => ({
      ingredient: String(ingredientId),
      grams: (sums.get(String(ingredientId)) ?? grams) * (into === 'pickle' ? pickleShare : 1),
    })),
  ];
  return labelLines(wentIn, pantryOf(cards).library);
}

const shown = ({ name, parts }: LabelPart): LabelIngredient => ({
  name,
  parts: parts === 'unknown' ? parts : parts.map(shown),
});

function keptHow(
  session: Session,
  madeId: number,
  { keep }: RecipeBody,
  readyToEat: boolean,
): { keep: RecipeBody['keep']; findings: SmokeFinding[] } {
  if (keep !== 'shelf-stable') return { keep, findings: [] };
  const activity = session.book.made
    .analyses(madeId)
    .findLast(({ what, void_reason: voided }) => what === 'water activity' && voided === null)?.value;
  if (readyToEat && activity !== undefined && activity <= SHELF_STABLE_ACTIVITY)
    return { keep, findings: [] };
  const told = { limit: SHELF_STABLE_ACTIVITY };
  return {
    keep: 'refrigerated',
    findings: [{ code: 'label.not-shelf-stable', weight: 'warn', with: told, rule: null }],
  };
}
