/** Opens made batches, reckons their amounts and starts them. Above an official limit none starts. */
import * as v from 'valibot';
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import { openBatchOf } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import type { MadeSheet } from '../contract/contract.ts';
import { addGrind } from '../grinder/grinder.ts';
import { planGrind } from '../grinder/grind-plan.ts';
import { by, id, listOf, needed, share, text } from '../input/input.ts';
import { typedGrams } from '../input/typed-grams.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { host, write } from '../session/procedure.ts';
import { refuseWrongClock } from '../session/clock.ts';
import type { Session } from '../session/session.ts';
import { cardsFor } from '../recipes/library.ts';
import { bodyOf, recipeRowOf } from '../recipes/recipes.ts';
import { smallStep } from '../session/settings.ts';
import { madeOf, sumsOf, type StoredStart } from './made-batch.ts';
import { hostsIn, leftOf, meatOf, portionOf, refuseHeldMeat, speciesIn, standingIn } from './meat.ts';
import { sheetOf } from './sheet.ts';

/** As in one grind. */
const MAX_ANIMALS = 60;

const opened = v.object({
  recipeId: id,
  batchId: v.optional(v.nullable(id), null),
  animals: v.optional(listOf(id, MAX_ANIMALS), []),
  by,
});

/**
 * Opens a batch of a recipe on an open grind, or on a new grind of these animals' trim.
 * @throws ProblemError `recipe.unknown`, `recipe.archived` (refused), `trim.choose` (invalid: neither grind nor animals, or both),
 *   `batch.unknown`, `batch.done`, `made.held`, and as `grinder.start`
 */
export const open = host(opened, openMade);

async function openMade(
  session: Session,
  { recipeId, batchId, animals, by: initials }: v.InferOutput<typeof opened>,
): Promise<{ id: number; name: string; batchId: number }> {
  refuseWrongClock(session);
  const recipe = recipeRowOf(session, recipeId);
  if (recipe.active === 0)
    throw new ProblemError('refused', 'recipe.archived', { with: { name: recipe.name } });
  if ((batchId === null) === (animals.length === 0))
    throw new ProblemError('invalid', 'trim.choose', { field: 'animals' });
  const plan =
    batchId === null
      ? await planGrind(session, {
          animals: animals.map((one) => ({ id: one })),
          fat: 'none',
          targetFat: null,
        })
      : null;
  return session.book.change(() => {
    const grind = plan
      ? addGrind(
          session,
          { animalIds: animals, product: recipe.product, targetFat: null, by: initials },
          {
            kind: plan.kind,
            parts: 'parts' in plan ? plan.parts : plan.nearest.parts,
            fat: 'fat' in plan ? plan.fat : plan.nearest.fat,
          },
        )
      : openBatchOf(session, batchId ?? 0);
    refuseHeldMeat(session, grind.id);
    const made = session.book.made.add({
      season: session.season(),
      recipeId,
      batchId: grind.id,
      at: session.now(),
      by: initials,
    });
    return { ...made, batchId: grind.id };
  });
}

const asked = {
  id,
  /** The part of the grind that goes into it; '' takes all that is left. */
  portionTyped: text(60),
  /** What the meat really took up of the pickle, instead of the recipe's figure. */
  pickUp: v.optional(v.nullable(share), null),
  /** Of another scale than the shop's small one. */
  smallStepGrams: v.optional(v.nullable(smallStep), null),
};

/** The batch sheet as it would be now. @throws ProblemError as `start`, but for findings */
export const plan = readAfterLearning(
  v.object(asked),
  (session, input): MadeSheet => {
    const made = madeOf(session, input.id);
    return reckoned(session, made, input).sheet;
  },
  { models: ['fats'] },
);

/**
 * Starts a batch, or starts it again with other amounts until it is stuffed.
 * @throws ProblemError `made.stuffed`, `made.no-meat`, `made.not-enough`, `made.held`, `made.stopped` (refused: what was found is told by
 *   `made.plan`), `batch.done`
 */
export const start = write(v.object({ ...asked, by }), (session, input): { id: number } => {
  const made = madeOf(session, input.id);
  openBatchOf(session, made.batch_id);
  if (sumsOf(session, made.id).stuffed !== null)
    throw new ProblemError('refused', 'made.stuffed', { with: { name: made.name } });
  refuseHeldMeat(session, made.batch_id);
  const stored = reckoned(session, made, input);
  const [stop] = stored.sheet.findings.filter(({ weight }) => weight === 'stop');
  if (stop) throw new ProblemError('refused', stop.code, { with: stop.with });
  if (!stored.sheet.mayStart) throw new ProblemError('refused', 'made.stopped');
  session.book.made.addStart({
    madeId: made.id,
    versionId: stored.sheet.versionId,
    portionTyped: input.portionTyped,
    grams: stored.sheet.blockGrams,
    body: JSON.stringify(stored),
    at: session.now(),
    by: input.by,
  });
  return { id: made.id };
});

/**
 * Voids a batch that was a mistake. Its meat stays in its grind.
 * @throws ProblemError `made.unknown`, `made.voided`, `made.packed`, `batch.done` (refused)
 */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const made = madeOf(session, input.id);
  if (sumsOf(session, made.id).packed !== null)
    throw new ProblemError('refused', 'made.packed', { with: { name: made.name } });
  openBatchOf(session, made.batch_id);
  session.book.made.void(made.id, input.reason, session.now(), input.by);
  return { id: made.id };
});

type Asked = Pick<
  v.InferOutput<v.ObjectSchema<typeof asked, undefined>>,
  'portionTyped' | 'pickUp' | 'smallStepGrams'
>;

/** @throws ProblemError `made.no-meat`, `made.not-enough` (refused) */
export function reckoned(session: Session, made: MadeRow, input: Asked): StoredStart {
  const recipe = recipeRowOf(session, made.recipe_id);
  const standing = standingIn(session, made.batch_id);
  const left = leftOf(session, made.batch_id, made.id, standing);
  const portion =
    input.portionTyped === '' ? left : typedGrams(input.portionTyped, session.settings.unit, 'portionTyped');
  if (left <= 0) throw new ProblemError('refused', 'made.no-meat', { with: { name: made.name } });
  // A rounded step of the scale is no other weight.
  if (portion > left + 5)
    throw new ProblemError('refused', 'made.not-enough', {
      field: 'portionTyped',
      with: { grams: portion, leftGrams: left },
    });
  const body = bodyOf(recipe);
  const measured = input.pickUp === null ? body : { ...body, pickUp: input.pickUp };
  const cards = cardsFor(session, body);
  const meat = portionOf(meatOf(session, made.batch_id, standing), portion);
  const sheet = sheetOf(session, {
    batchId: made.batch_id,
    standing,
    recipeId: made.recipe_id,
    versionId: recipe.version,
    body: measured,
    cards,
    meat,
    portionTyped: input.portionTyped,
    smallStepGrams: input.smallStepGrams ?? session.settings.smallStep,
  });
  return {
    sheet,
    body: measured,
    cards,
    meat,
    species: speciesIn(session, standing),
    hosts: hostsIn(session, made.batch_id, standing),
  };
}
