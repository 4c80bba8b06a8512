/** One grind batch: plan and weights in, estimated fat, remaining amounts, packages and owners. */
import type { BatchRecord } from '../../book/records/batches.ts';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { fatToAdd } from '../../core/blend/blend.ts';
import { normalQuantile } from '../../core/stats/distributions.ts';
import { GROUND_HEAT } from '../../core/cold/ground-heat.ts';
import { roundToStep, toGrams } from '../../core/values/units.ts';
import { reachedBy } from '../animal/affected.ts';
import { losesWater } from '../animal/water-loss.ts';
import { whyMoreOut } from '../animal/batch-mass.ts';
import { addedFat, batchOrders } from './batch-orders.ts';
import { lotNamed } from './blend-sources.ts';
import { weighingRow } from '../weighing/weighing-row.ts';
import { fatOfSource, mixtureOf } from '../learning/fat-estimates.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { heldGrind, throughBefore } from '../animal/grinder-traces.ts';
import { AT_TARGET, type StoredPlan } from './grind-plan.ts';
import { ownersOf } from '../animal/owners.ts';
import { fromOtherLots, lotToTopUp } from './other-lots.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage, PlanPart } from '../contract/contract.ts';

const NINE_IN_TEN = normalQuantile(0.95);

export function batchPage(session: Session, batch: BatchRecord): BatchPage {
  const plan = JSON.parse(batch.plan) as StoredPlan;
  const rows = session.book.weighings.ofBatch(batch.id);
  const animals = session.book.batches.animals(batch.id);
  const species = [...new Set(animals.map((animal) => animal.species))].map((code) =>
    session.species.of(code),
  );
  const now = rows.filter((row) => row.void_at === null);
  const packed = now.filter((row) => row.stage === 'packed');
  const estimates = session.fats.before(batch.id);
  const mix = fatIn(session, batch.id);
  const { toWeigh, short } = fromOtherLots(
    session,
    stillToWeigh(session, plan.parts, now),
    estimates,
    substitutes(plan.parts, now),
  );
  return {
    id: batch.id,
    name: batch.name,
    product: batch.product,
    state: batch.state,
    at: batch.at,
    targetFat: batch.target_fat,
    cookTo: GROUND_HEAT,
    species: species.map(({ name }) => name),
    ...batchOrders(session, animals, batch.product),
    made: session.book.madeWeights.sumsOfBatch(batch.id).map(({ id, name }) => ({ id, name })),
    addedFat: addedFat(session, batch.target_fat, plan.parts),
    planned: plan.parts,
    plannedFat: plan.fat,
    weighedIn: rows
      .filter((row) => row.stage === 'grinder')
      .map((row) => ({
        ...weighingRow(row),
        ticket: row.ticket,
        fatLot: row.lot,
        fat: fatOfSource(estimates, row).mean,
      })),
    inGrams: mix.grams,
    fat: mix.fat,
    fatRange:
      mix.fat === null
        ? null
        : {
            low: Math.max(0, mix.fat - NINE_IN_TEN * mix.sd),
            high: Math.min(1, mix.fat + NINE_IN_TEN * mix.sd),
          },
    fatAddedGrams: now
      .filter((row) => row.stage === 'grinder' && row.part !== 'trim')
      .reduce((total, { grams }) => total + grams, 0),
    toWeigh,
    shortFat: batch.state === 'open' ? short : null,
    topUp: toWeigh.length === 0 && !short ? topUpOf(session, batch, mix, plan.parts) : null,
    packages: packed.map(({ id, product, count, typed, grams, source, place, at, by }) => ({
      id,
      product: product ?? '',
      count: count ?? 0,
      typed,
      grams,
      source,
      place,
      at,
      by,
    })),
    outGrams: packed.reduce((total, { grams }) => total + grams, 0),
    losesWater: losesWater(session, batch.product),
    whyMoreOut: whyMoreOut(session, batch.id),
    reopened: reopenings(session, batch.id),
    fatTests: session.book.batches
      .tests(batch.id)
      .map(({ fat, method, at, by }) => ({ fat, method, at, by })),
    passes: session.book.batches.passes(batch.id).map(({ pass, plate, temp_tenths_c, at, by }) => ({
      pass, plate, at, by, tempC: temp_tenths_c === null ? null : temp_tenths_c / 10,
    })), // prettier-ignore
    heldGrind: heldGrind(session, batch),
    throughBefore: throughBefore(session, batch),
    affectedBy: reachedBy(session, batch),
    owners: ownersOf(session, batch.id),
  };
}

/** When it was reopened after it was finished, and why. */
function reopenings(session: Session, batchId: number): BatchPage['reopened'] {
  return session.book.audit
    .of('batch', batchId)
    .filter(({ before }) => before === '{"state":"done"}')
    .map(({ reason, at, by }) => ({ reason: reason ?? '', at: at ?? '', by: by ?? '' }));
}

/**
 * Weight and fat of what was weighed in, with the SD from the fat of its sources, as estimated before the batch's own
 * tests. Trim of one kind shares the uncertainty of the kind's mean, as in the plan.
 */
export function fatIn(session: Session, batchId: number): { grams: number; fat: number | null; sd: number } {
  const rows = session.book.weighings
    .ofBatch(batchId)
    .filter((row) => row.stage === 'grinder' && row.void_at === null);
  const grams = rows.reduce((total, row) => total + row.grams, 0);
  const mix = mixtureOf(session.fats.before(batchId), rows);
  return { grams, fat: mix?.mean ?? null, sd: mix?.sd ?? 0 };
}

function stillToWeigh(
  session: Session,
  planned: readonly PlanPart[],
  rows: readonly WeighingRecord[],
): PlanPart[] {
  const step = toGrams(session.settings.step, session.settings.unit);
  return planned.flatMap((part) => {
    const weighed = rows
      .filter(
        (row) =>
          row.stage === 'grinder' &&
          (part.fatLotId === null
            ? row.fat_lot_id === null && row.animal_id === part.animalId
            : row.fat_lot_id === part.fatLotId),
      )
      .reduce((total, row) => total + row.grams, 0);
    const left = part.grams - weighed;
    // Within two steps counts as weighed: totes are filled by hand.
    return left > 2 * step + ROUNDING_TOLERANCE_GRAMS && (part.kind === 'fat' || weighed === 0)
      ? [{ ...part, grams: left }]
      : [];
  });
}

/** Fat added from lots outside the plan. */
function substitutes(
  planned: readonly PlanPart[],
  rows: readonly WeighingRecord[],
): { lotId: number; grams: number }[] {
  return rows.flatMap(({ stage, fat_lot_id: lotId, grams }) =>
    stage === 'grinder' && lotId !== null && !planned.some((part) => part.fatLotId === lotId)
      ? [{ lotId, grams }]
      : [],
  );
}

/**
 * Fat still needed to reach the target: from the first planned lot, or from another of the same fat if that is empty.
 */
function topUpOf(
  session: Session,
  batch: BatchRecord,
  mix: { grams: number; fat: number | null },
  planned: readonly PlanPart[],
): BatchPage['topUp'] {
  const source = planned.find(({ kind }) => kind === 'fat');
  if (batch.target_fat === null || mix.fat === null || !source || mix.fat >= batch.target_fat - AT_TARGET)
    return null;
  const planLot = session.book.fat.get(source.fatLotId ?? 0);
  if (!planLot) return null;
  const lot = lotToTopUp(session, planLot);
  const add = fatToAdd({
    leanGrams: mix.grams,
    leanFat: mix.fat,
    fatFat: session.fats.before(batch.id).lot(lot).mean,
    targetFat: batch.target_fat,
  });
  if (add.kind !== 'add') return null;
  const { unit, step } = session.settings;
  const grams = toGrams(roundToStep(add.grams / toGrams(1, unit), step), unit);
  return grams > 0
    ? {
        grams,
        fatLotId: lot.id,
        fat: session.fats.before(batch.id).lot(lot).mean,
        ...lotNamed(lot),
        leftGrams: Math.max(0, lot.left_grams),
      }
    : null;
}
