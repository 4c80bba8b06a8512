/** The weights of one animal, and the shares that follow from them. */
import { ValidationError } from '../values/validation-error.ts';
import type { Age, Brought, Damage, Sex } from '../species/species.ts';
import type { Part, Split } from './tree.ts';

/** The kind of animal; an absent field counts as `unknown`. */
export interface Group {
  readonly species: string;
  readonly brought: Brought;
  readonly sex?: Sex;
  readonly age?: Age;
  readonly damage?: Damage;
}

/** The weights of one animal, in grams. Take-home includes saved own fat but no added fat. */
export interface YieldObservation {
  /** Hanging weight; for quarters, primals and boned meat the received weight. */
  readonly hangingGrams: number;
  readonly takeHomeGrams?: number;
  readonly parts?: Readonly<Partial<Record<Exclude<Part, 'meat' | 'takeHome' | 'loss'>, number>>>;
  readonly group: Group;
}

/** Share of the hanging weight by which parts may exceed their whole (two readings, rounding); they then count as all of it. */
const PART_EXCESS_TOLERANCE = 0.02;
/** Floating-point allowance on top: 51 lb of parts on 50 lb are exactly 2 %. */
const ROUNDING_TOLERANCE = 1e-9;
/** Smallest whole, as a share of the animal, that is used: below it the scale's step dominates. */
const MIN_WHOLE_SHARE = 0.005;

/**
 * Calls `take` with every share that follows from this animal's weights.
 * @throws ValidationError `yield.weight`, `yield.parts-exceed`
 */
export function forEachShare(
  observation: YieldObservation,
  take: (split: Split, share: number) => void,
): void {
  const hanging = observation.hangingGrams;
  if (!(hanging > 0 && Number.isFinite(hanging))) throw new ValidationError('yield.weight', 'hangingGrams');
  const parts = observation.parts ?? {};
  const takeHome = weight(observation.takeHomeGrams, 'takeHomeGrams');
  const cuts = weight(parts.wholeCuts, 'parts.wholeCuts');
  const trim = weight(parts.trim, 'parts.trim');
  const fat = weight(parts.fatSaved, 'parts.fatSaved');
  const bone = weight(parts.bone, 'parts.bone');
  const sinew = weight(parts.sinew, 'parts.sinew');
  const damage = weight(parts.damage, 'parts.damage');
  const shrink = weight(parts.shrink, 'parts.shrink');

  const report = (split: Split, part: number | null, whole: number | null): void => {
    if (part === null || whole === null) return;
    if (part - whole > (PART_EXCESS_TOLERANCE + ROUNDING_TOLERANCE) * hanging)
      throw new ValidationError('yield.parts-exceed', split);
    if (whole >= MIN_WHOLE_SHARE * hanging) take(split, Math.min(1, part / whole));
  };
  report('takeHome', takeHome, hanging);
  report('fatSaved', fat, takeHome);
  report('wholeCuts', cuts, cuts === null || trim === null ? null : cuts + trim);
  const loss = remainder(hanging, takeHome);
  const boned = observation.group.brought === 'boned';
  if (!boned) report('bone', bone, loss);
  const afterBone = remainder(loss, boned ? 0 : bone);
  report('sinew', sinew, afterBone);
  const last = remainder(afterBone, sinew);
  report('damage', damage ?? remainder(last, shrink), last);
}

function weight(grams: number | undefined, field: string): number | null {
  if (grams === undefined) return null;
  if (!(grams >= 0 && Number.isFinite(grams))) throw new ValidationError('yield.weight', field);
  return grams;
}

function remainder(whole: number | null, part: number | null): number | null {
  return whole === null || part === null ? null : Math.max(0, whole - part);
}
