/** Composition of a product from typed analyses and weights. All shares are fractions; masses in one unit, any. */
import { requireFinite, requireFraction, ValidationError } from '../values/validation-error.ts';

/** Water that meat holds for each part of its protein (Michigan Act 92 of 2000, section 7113; "4 times", completed from memory). */
const WATER_PER_PROTEIN = 4;

/**
 * Water added to a cooked sausage: moisture − 4 × protein, not below 0.
 * @throws ValidationError `share.out-of-range`, `number.not-finite`, `composition.above-whole` (together above 1)
 * @example addedWater({ moisture: 0.58, protein: 0.12 }) // 0.1
 */
export function addedWater({ moisture, protein }: { moisture: number; protein: number }): number {
  requireParts({ moisture, protein });
  return Math.max(0, moisture - WATER_PER_PROTEIN * protein);
}

/**
 * Protein on the fat-free part: protein ÷ (1 − fat) (9 CFR 319.104).
 * @throws ValidationError `share.out-of-range`, `composition.above-whole`, `composition.all-fat`
 * @example proteinFatFree({ protein: 0.18, fat: 0.04 }) // 0.1875
 */
export function proteinFatFree({ protein, fat }: { protein: number; fat: number }): number {
  requireParts({ protein, fat });
  if (fat === 1) throw new ValidationError('composition.all-fat', 'fat');
  return protein / (1 - fat);
}

/**
 * Moisture ÷ protein. A figure of labels: it must not be used to judge safety (FSIS jerky guideline, 2004); water activity does that.
 * @throws ValidationError `share.out-of-range`, `composition.above-whole`, `composition.no-protein`
 */
export function moistureProteinRatio({ moisture, protein }: { moisture: number; protein: number }): number {
  requireParts({ moisture, protein });
  if (protein === 0) throw new ValidationError('composition.no-protein', 'protein');
  return moisture / protein;
}

/**
 * What is left of raw lean that dries, nothing but water lost, to this moisture-protein ratio; salt and sugar apart.
 * @throws ValidationError those of `moistureProteinRatio`; `composition.wetter` (the lean is drier than that already)
 * @example yieldAtRatio({ moisture: 0.72, protein: 0.22 }, 0.75) // 0.445
 */
export function yieldAtRatio(lean: { moisture: number; protein: number }, ratio: number): number {
  const now = moistureProteinRatio(lean);
  if (!(requireFinite(ratio, 'ratio') >= 0 && ratio <= now))
    throw new ValidationError('composition.wetter', 'ratio', { ratio });
  return 1 - lean.moisture + ratio * lean.protein;
}

/**
 * The most water beside so much of everything else when water may be this share of the total.
 * @throws ValidationError `share.out-of-range`, `grams.negative`, `composition.all-water`
 * @example mostWater(97, 0.03) // 3, not 2.91
 */
export function mostWater(others: number, share: number): number {
  requireFraction(share, 'share');
  if (share === 1) throw new ValidationError('composition.all-water', 'share');
  requireMass(others, 'others');
  return (others * share) / (1 - share);
}

/**
 * Salt as a share of salt and water, the strength of a brine; what else is dissolved is left out.
 * @throws ValidationError `grams.negative`, `brine.empty`
 * @example brineStrength(10, 90) // 0.1
 */
export function brineStrength(salt: number, water: number): number {
  requireMass(salt, 'salt');
  requireMass(water, 'water');
  if (salt + water === 0) throw new ValidationError('brine.empty', 'water');
  return salt / (salt + water);
}

/**
 * A share of a batch as a share of the meat: 7 oz of salt on 25 lb.
 * @throws ValidationError `grams.negative`, `grams.not-positive` (no meat)
 */
export function shareOfMeat(part: number, meat: number): number {
  requireMass(part, 'part');
  requireMass(meat, 'meat');
  if (meat === 0) throw new ValidationError('grams.not-positive', 'meat', { grams: meat });
  return part / meat;
}

/** Grams of a dissolved thing that pumping or soaking puts into the meat. @throws ValidationError those of its parts */
export function fromPickle(
  dissolved: number,
  { pickleGrams, pickUp, greenGrams }: { pickleGrams: number; pickUp: number; greenGrams: number },
): number {
  requireMass(dissolved, 'dissolved');
  if (dissolved > pickleGrams) throw new ValidationError('composition.above-whole', 'dissolved');
  requireFraction(pickUp, 'pickUp');
  return shareOfMeat(dissolved, pickleGrams) * pickUp * greenGrams;
}

function requireParts(parts: Readonly<Record<string, number>>): void {
  for (const [field, share] of Object.entries(parts)) requireFraction(share, field);
  // Analyses of one sample may sum to a hair above the whole.
  if (Object.values(parts).reduce((sum, share) => sum + share, 0) > 1.005)
    throw new ValidationError('composition.above-whole', Object.keys(parts)[0]);
}

function requireMass(value: number, field: string): void {
  if (requireFinite(value, field) < 0) throw new ValidationError('grams.negative', field, { grams: value });
}
