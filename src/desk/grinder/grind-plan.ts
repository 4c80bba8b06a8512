/** What to weigh into a batch to reach its target fat, or how far off it stays and what would make it possible. */
import { planBlend, fatToAdd } from '../../core/blend/blend.ts';
import type { Batch, BlendSource } from '../../core/blend/types.ts';
import { toGrams } from '../../core/values/units.ts';
import { fatSources, sharing, trimSources, trimWaiting, type BenchSource } from './blend-sources.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { recipeMeat } from './recipe-meat.ts';
import { FATS, ownFatSource } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import { animalOf } from '../animal/closed.ts';
import type { BlendPlan, FatChoice, PlanPart } from '../contract/contract.ts';

interface GrindRequest {
  animals: readonly { id: number; grams?: number | undefined }[];
  fat: FatChoice;
  lotIds?: readonly number[] | undefined;
  targetFat: number | null;
  /** Bought meat in the proportion of this recipe instead of a fat and a target. */
  recipeId?: number | null | undefined;
}

/** The plan as stored with its batch. */
export interface StoredPlan {
  kind: string;
  parts: PlanPart[];
  fat: number;
}

/** Half a scale step, plus a margin for rounding, so that the nearest whole step is always included. */
const HALF_STEP = 0.5001;
/** Rounds to the target at a tenth of a percent. */
export const AT_TARGET = 0.0005;

export async function planGrind(session: Session, request: GrindRequest): Promise<BlendPlan> {
  const ids = request.animals.map(({ id }) => id);
  const trim = trimSources(session, request.animals);
  if (request.recipeId) return byRecipe(session, request.recipeId, trim, ids);
  const fats = fatSources(session, request.fat, ids, request.lotIds);
  const lean = mixOf(trim.map(({ source }) => source));
  const target = request.targetFat;
  if (target === null || request.fat === 'none')
    return allOf(session, trim, request.fat === 'none' ? [] : fats, target);
  if (lean.fat >= target - AT_TARGET)
    return {
      kind: 'lean enough',
      fat: lean.fat,
      target,
      parts: partsOf(trim, lean),
      batchGrams: lean.grams,
      leanToAddGrams: leanToAdd(session, ids, lean, target),
    };

  const richness = fats.length > 0 ? mixOf(fats.map(({ source }) => source)).fat : fatOf(session, request);
  if (richness <= target + AT_TARGET) return outOfReach(trim, fats, target, richness);
  const needed = fatToAdd({ leanGrams: lean.grams, leanFat: lean.fat, fatFat: richness, targetFat: target });
  const need = needed.kind === 'add' ? needed.grams : 0;
  const slack = halfStep(session, lean, Math.max(richness, ...fats.map(({ source }) => source.fat)), target);
  const sources = sharing(session, [...trim, ...fats]);
  // For a small amount of trim, half a step can exceed the whole target.
  const fat = { min: Math.max(0, target - slack), max: Math.min(1, target + slack) };
  const answer = await planBlend({ sources, fat });
  if (answer.kind === 'plan') return planned([...trim, ...fats], answer);
  const availableGrams = fats.reduce((total, { source }) => total + source.availableGrams, 0);
  return {
    kind: 'not enough fat',
    target,
    haveGrams: availableGrams,
    needGrams: need,
    missingGrams: Math.max(0, need - availableGrams),
    nearest: nearestOf(trim, fats),
  };
}

async function byRecipe(
  session: Session,
  recipeId: number,
  trim: BenchSource[],
  ids: readonly number[],
): Promise<BlendPlan> {
  const trimGrams = mixOf(trim.map(({ source }) => source)).grams;
  const { fats, needGrams, haveGrams } = recipeMeat(session, recipeId, trimGrams, ids);
  const missingGrams = needGrams - haveGrams;
  if (missingGrams <= ROUNDING_TOLERANCE_GRAMS) return allOf(session, trim, fats, null);
  return {
    kind: 'not enough fat',
    target: null,
    haveGrams,
    needGrams,
    missingGrams,
    nearest: nearestOf(trim, fats),
  };
}

/**
 * By how much half a scale step changes the batch's fat: for the richest lot, which changes it most and needs the
 * smallest batch. A smaller tolerance could let whole steps of a rich lot skip the target although there is enough.
 */
function halfStep(
  session: Session,
  lean: { grams: number; fat: number },
  richest: number,
  target: number,
): number {
  const needed = fatToAdd({ leanGrams: lean.grams, leanFat: lean.fat, fatFat: richest, targetFat: target });
  const batch = lean.grams + (needed.kind === 'add' ? needed.grams : 0);
  return (HALF_STEP * toGrams(session.settings.step, session.settings.unit) * (richest - target)) / batch;
}

/** Uses everything chosen as it is: there is no target, or no fat is wanted. */
async function allOf(
  session: Session,
  trim: BenchSource[],
  fats: BenchSource[],
  target: number | null,
): Promise<BlendPlan> {
  // Everything is weighed already, so the scale step does not matter.
  const all = [
    ...trim,
    ...fats.map((one) => ({ ...one, source: { ...one.source, stepGrams: undefined, useAll: true } })),
  ];
  const sources = sharing(session, all);
  const answer = await planBlend({ sources, fat: { min: 0, max: 1 } });
  if (answer.kind === 'plan') return planned(all, answer);
  return {
    kind: 'out of reach',
    target: target ?? 0,
    richest: mixOf(sources).fat,
    nearest: nearestOf(trim, fats),
  };
}

function planned(bench: BenchSource[], batch: Batch): BlendPlan {
  const parts = bench
    .map(({ line, source }) => ({ line, part: batch.parts.find(({ id }) => id === source.id) }))
    .flatMap(({ line, part }) =>
      part && part.grams > 0 ? [{ ...line, grams: part.grams, share: part.share }] : [],
    );
  return {
    kind: 'plan',
    parts,
    batchGrams: batch.batchGrams,
    fat: batch.fat,
    fatRange: { low: batch.fatRange.low, high: batch.fatRange.high },
    fatToAddGrams: parts.filter(({ kind }) => kind === 'fat').reduce((total, { grams }) => total + grams, 0),
    costMinor: Math.round(batch.cost),
  };
}

/** All available fat with all the trim: the closest result when there is too little fat. */
function nearestOf(
  trim: BenchSource[],
  fats: BenchSource[],
): { parts: PlanPart[]; batchGrams: number; fat: number } {
  const all = [...trim, ...fats];
  const mix = mixOf(all.map(({ source }) => source));
  return { parts: partsOf(all, mix), batchGrams: mix.grams, fat: mix.fat };
}

function outOfReach(trim: BenchSource[], fats: BenchSource[], target: number, richest: number): BlendPlan {
  return { kind: 'out of reach', target, richest, nearest: nearestOf(trim, fats) };
}

function partsOf(bench: BenchSource[], mix: { grams: number }): PlanPart[] {
  return bench.map(({ line, source }) => ({
    ...line,
    grams: source.availableGrams,
    share: source.availableGrams / mix.grams,
  }));
}

function mixOf(sources: readonly BlendSource[]): { grams: number; fat: number } {
  const grams = sources.reduce((total, { availableGrams }) => total + availableGrams, 0);
  const fat = sources.reduce((total, source) => total + source.availableGrams * source.fat, 0);
  return { grams, fat: grams > 0 ? fat / grams : 0 };
}

/** Fat content of the chosen fat when none is on hand. */
function fatOf(session: Session, { fat, animals }: GrindRequest): number {
  const [first] = animals;
  if (fat === 'own' && first)
    return ownFatSource(session.species.of(animalOf(session, first.id).species)).fat;
  return FATS.find(({ code }) => code === fat)?.fat ?? 0;
}

/** Lean that would lower a fat batch to its target, from the leanest other waiting trim; null without any. */
function leanToAdd(
  session: Session,
  ids: readonly number[],
  mix: { grams: number; fat: number },
  target: number,
): number | null {
  const others = trimWaiting(session).filter(({ id }) => !ids.includes(id));
  const [leanest] = trimSources(
    session,
    others.map(({ id }) => ({ id })),
  )
    .map(({ source }) => source.fat)
    .filter((fat) => fat < target)
    .sort((a, b) => a - b);
  return leanest === undefined ? null : (mix.grams * (mix.fat - target)) / (target - leanest);
}
