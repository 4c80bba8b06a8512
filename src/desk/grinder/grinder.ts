/** The grinder page: waiting trim, plans, and starting a batch. */
import * as v from 'valibot';
import type { BatchRecord } from '../../book/records/batches.ts';
import { batchPage, fatIn } from './batch-page.ts';
import { leftOut, trimCrumb, trimWaiting } from './blend-sources.ts';
import { reachedBy } from '../animal/affected.ts';
import { refuseWrongClock } from '../session/clock.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { lotRow } from './fat.ts';
import { planGrind, type StoredPlan } from './grind-plan.ts';
import { cleaningOf, uncleaned } from '../animal/grinder-traces.ts';
import { grindWants } from './grind-wants.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { heldAs, refuseHeldPool } from '../animal/hold-rules.ts';
import { recipesOfOrders } from '../recipes/ordered.ts';
import type { RecipeOutput } from '../recipes/output.ts';
import { by, id, listOf, needed, someGrams, targetFat } from '../input/input.ts';
import { refusePooled } from './pooling.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { host } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { BatchLine, GrinderView, GrindPlan, WaitingWant } from '../contract/contract.ts';
import { batchOf, openAnimalOf } from '../animal/closed.ts';

/** More lots than any shop has on hand. */
const MAX_LOTS = 100;

const planInput = {
  animals: v.pipe(
    v.array(v.object({ id, grams: v.optional(someGrams) })),
    v.minLength(1, 'trim.choose'),
    v.maxLength(60, 'trim.choose'),
  ),
  fat: needed(40),
  lotIds: v.optional(v.pipe(listOf(id, MAX_LOTS), v.minLength(1, 'fat.choose'))),
  targetFat,
  /** Bought meat as this recipe asks for it: no fat and target of their own. */
  recipeId: v.optional(v.nullable(id), null),
};
const RECENT = 12;
const CLEANINGS = 5;

/** Waiting trim, open and newest batches, and the fat on hand. */
export const get = readAfterLearning(v.object({}), (session): GrinderView => {
  const recipeOf = recipesOfOrders(session);
  return {
    waiting: trimWaiting(session).map((row) => {
      const species = session.species.of(row.species);
      return {
        id: row.id,
        ticket: row.ticket,
        hunter: row.hunter,
        speciesName: species.name,
        trimLeftGrams: row.trim_left,
        ownFatLeftGrams: Math.max(0, session.book.fat.ofAnimal(row.id)?.left_grams ?? 0),
        trimFat: { ...session.fats.now.trim(row) },
        wants: grindWants(
          instructionsOf(session, row.id),
          session.book.sums.trimInto(row.id),
          row.trim_left,
          trimCrumb(session),
        ).map((want) => ({ ...want, recipe: orderRecipe(recipeOf(want)) })),
        refusesPooling: row.refuses_pooling === 1,
        hold: heldAs(session.book.animals.hold(row.id)),
      };
    }),
    open: session.book.batches.open().map((batch) => batchLine(session, batch)),
    recent: session.book.batches.recent(RECENT).map((batch) => batchLine(session, batch)),
    fat: session.book.fat.withLeft(ROUNDING_TOLERANCE_GRAMS).map((lot) => lotRow(session, lot)),
    uncleaned: uncleaned(session),
    cleanings: session.book.grinderCleanings.newest(CLEANINGS).map(cleaningOf),
  };
});

const orderRecipe = (recipe: RecipeOutput | null): WaitingWant['recipe'] =>
  recipe && { id: recipe.recipeId, name: recipe.name, meat: [...recipe.meat] };

export const getBatch = readAfterLearning(v.object({ id }), (session, input) =>
  batchPage(session, batchOf(session, input.id)),
);

/** With more lots than this the solver may take two seconds, so it runs in the worker. */
const MANY_LOTS = 30;
const manyLots = { when: ({ book }: Session): boolean => book.counts.boughtLots() > MANY_LOTS };

/** Plans a batch. Fat past its use-by is left out and reported, unless its lot is named. */
export const plan = readAfterLearning(
  v.object(planInput),
  async (session, input): Promise<GrindPlan> => ({
    ...(await planGrind(session, input)),
    leftOut: leftOut(session, input),
  }),
  { long: manyLots },
);

/** Starts a batch and stores its plan. The solver runs first; the write is one transaction. */
const started = v.object({ ...planInput, product: needed(60), by });
export const start = host(started, startBatch, manyLots);

async function startBatch(
  session: Session,
  input: v.InferOutput<typeof started>,
): Promise<{ id: number; name: string }> {
  refuseWrongClock(session);
  const animalIds = input.animals.map((one) => one.id);
  refuseTogether(session, animalIds);
  const answer = await planGrind(session, input);
  const parts = 'parts' in answer ? answer.parts : answer.nearest.parts;
  const stored = { kind: answer.kind, parts, fat: 'fat' in answer ? answer.fat : answer.nearest.fat };
  return session.book.change(() => addGrind(session, { ...input, animalIds }, stored));
}

/**
 * Adds a batch with its plan, in the caller's transaction.
 * @throws ProblemError as `start`: while the solver ran, another window may have put an animal on hold or released it
 */
export function addGrind(
  session: Session,
  {
    animalIds,
    product,
    targetFat,
    by: initials,
  }: { animalIds: readonly number[]; product: string; targetFat: number | null; by: string },
  plan: StoredPlan,
): { id: number; name: string } {
  refuseTogether(session, animalIds);
  return session.book.batches.add({
    season: session.season(),
    product,
    targetFat,
    plan,
    animalIds,
    startedOn: session.today(),
    at: session.now(),
    by: initials,
  });
}

function refuseTogether(session: Session, animalIds: readonly number[]): void {
  refusePooled(session, animalIds);
  refuseHeldPool(
    session,
    animalIds.map((animalId) => openAnimalOf(session, animalId)),
  );
}

function batchLine(session: Session, batch: BatchRecord): BatchLine {
  const { grams, fat } = fatIn(session, batch.id);
  return {
    id: batch.id,
    name: batch.name,
    product: batch.product,
    tickets: session.book.batches.animals(batch.id).map(({ ticket }) => ticket),
    state: batch.state,
    targetFat: batch.target_fat,
    fat,
    inGrams: grams,
    at: batch.at,
    affectedBy: reachedBy(session, batch).map(({ ticket }) => ticket),
  };
}
