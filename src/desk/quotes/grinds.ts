/** Products at one end of a quote's range: cuts, each grind with its fat, and leftover own fat. */
import { fatToAdd } from '../../core/blend/blend.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { ProblemError } from '../contract/problem.ts';
import { FATS, ownFatSource } from '../supplied/resources.ts';
import type { AlsoGround, FatChoice, Instructions } from '../contract/contract.ts';

/** Predicted meat in grams; `trimFat` is the fat of the trim, as a fraction. */
export interface Meat {
  cuts: number;
  trim: number;
  ownFat: number;
  trimFat: number;
}

interface GrindMade {
  product: string;
  fat: FatChoice;
  /** Trim and fat together, in grams. */
  grams: number;
  /** The part of it that is bought fat. */
  boughtGrams: number;
}

export interface Outcome {
  cuts: number;
  /** One per product; a product ordered twice is merged. */
  grinds: GrindMade[];
  ownFatKept: number;
}

type GrindOrder = Pick<AlsoGround, 'product' | 'fat' | 'targetFat'>;

/**
 * Allocates the trim: first to grinds with an amount of their own, as far as it goes, the rest to the main grind. The
 * animal's own fat is allocated in the same order. Mass is conserved: cuts + grinds + leftover own fat = cuts + trim
 * + own fat + bought fat.
 * @throws ProblemError `fat.unknown`, `fat.too-lean`
 */
export function makeOf(meat: Meat, wanted: Instructions, profile: SpeciesProfile): Outcome {
  const grinds: GrindMade[] = [];
  let trim = meat.trim;
  let ownFat = meat.ownFat;
  const make = (order: GrindOrder, lean: number, field: string): void => {
    if (lean <= 0) return;
    trim -= lean;
    const need = fatNeeded(lean, meat.trimFat, order, profile, field);
    const own = order.fat !== 'own' ? 0 : Math.min(ownFat, order.targetFat === null ? ownFat : need);
    ownFat -= own;
    const boughtGrams = order.fat === 'own' ? 0 : need;
    const made = { product: order.product, fat: order.fat, grams: lean + own + boughtGrams, boughtGrams };
    const same = grinds.find(({ product, fat }) => product === made.product && fat === made.fat);
    if (!same) grinds.push(made);
    else Object.assign(same, { grams: same.grams + made.grams, boughtGrams: same.boughtGrams + boughtGrams });
  };
  for (const [i, also] of wanted.alsoGround.entries())
    make(also, Math.min(also.grams, trim), `instructions.alsoGround[${i}]`);
  make({ ...wanted, product: wanted.grindProduct }, trim, 'instructions');
  return { cuts: meat.cuts, grinds, ownFatKept: ownFat };
}

function fatNeeded(
  lean: number,
  leanFat: number,
  { fat, targetFat }: GrindOrder,
  profile: SpeciesProfile,
  field: string,
): number {
  if (fat === 'none') return 0;
  const source = fat === 'own' ? ownFatSource(profile) : FATS.find(({ code }) => code === fat);
  if (!source)
    throw new ProblemError('missing', 'fat.unknown', { field: `${field}.fat`, with: { source: fat } });
  if (targetFat === null) return 0;
  const add = fatToAdd({ leanGrams: lean, leanFat, fatFat: source.fat, targetFat });
  if (add.kind === 'out of reach')
    throw new ProblemError('invalid', 'fat.too-lean', {
      field: `${field}.targetFat`,
      with: { fat: source.fat, source: source.name },
    });
  return add.kind === 'add' ? add.grams : 0;
}
