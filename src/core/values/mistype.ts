/**
 * Candidate corrections of an implausible weight: every single typing or reading error that turns the true weight into the
 * one typed.
 */
import { digitSlips, type MistypeKind, type Typed } from './mistype-digits.ts';
import { ValidationError } from './validation-error.ts';
import { MAX_DECIMALS } from './reading-number.ts';
import { sumOf } from './loads.ts';
import { MAX_READING_GRAMS, readingGrams, type Load } from './reading.ts';
import { GRAMS_PER, type MassUnit } from './units.ts';

export type { MistypeKind, Typed };

/** A candidate for the intended weight. */
export interface Mistype extends Typed {
  /** The slip that turns this weight into the one typed. */
  kind: MistypeKind;
  grams: number;
  /** For ranking only, above 0 and at most 1: how common the slip is, times how near the target it lands. */
  plausibility: number;
}

/**
 * Prior weight of each kind of slip: our judgement, no source. It is divided evenly among the candidates of a kind,
 * because a kind with many candidates is weak evidence when one of them fits.
 */
const COMMON: Readonly<Record<MistypeKind, number>> = {
  'digits-swapped': 0.25,
  'decimal-slipped': 0.2,
  'wrong-unit': 0.2,
  'digit-wrong': 0.15,
  'digit-missing': 0.1,
  'digit-doubled': 0.1,
  'tare-left-in': 0.2,
};

/** Units that are commonly confused: a scale switched over, or ounces read as pounds. */
const MIXED_UP: Readonly<Record<MassUnit, readonly MassUnit[]>> = {
  lb: ['kg', 'oz'],
  kg: ['lb', 'g'],
  oz: ['lb'],
  g: ['kg'],
};

/**
 * The single slips that explain `reading` if the true weight was `targetGrams`, give or take `toleranceGrams`
 * (about two standard deviations of the target); most plausible first, none if no slip lands within.
 * @throws ValidationError `number.not-finite`, `tolerance.not-positive`
 * @example likelyMistypes({ digits: 2100, decimals: 1, unit: 'lb' }, 500, 54431) // first: 120.0 lb, digits-swapped
 */
export function likelyMistypes(reading: Typed, toleranceGrams: number, targetGrams: number): Mistype[] {
  if (!Number.isFinite(targetGrams)) throw new ValidationError('number.not-finite', 'targetGrams');
  if (!(toleranceGrams > 0)) throw new ValidationError('tolerance.not-positive', 'toleranceGrams');

  const best = new Map<number, Mistype>();
  for (const [kind, slips] of slipsByKind(reading, [])) {
    for (const slip of slips) {
      const grams = readingGrams(slip);
      const off = (grams - targetGrams) / (toleranceGrams / 2);
      if (Math.abs(off) > 2) continue;
      const plausibility = (COMMON[kind] / slips.length) * Math.exp((-off * off) / 2);
      if (plausibility > (best.get(grams)?.plausibility ?? 0)) {
        best.set(grams, { ...slip, kind, grams, plausibility });
      }
    }
  }
  return [...best.values()].sort((a, b) => b.plausibility - a.plausibility || a.grams - b.grams);
}

/**
 * The candidate readings by kind of slip: distinct, none equal to the reading itself. `containers` are the weights
 * in grams of containers that may not have been subtracted.
 * @example slipsByKind({ digits: 54, decimals: 0, unit: 'lb' }, [])[0] // ['digits-swapped', [{ digits: 45, … }]]
 */
export function slipsByKind(reading: Typed, containers: readonly number[]): [MistypeKind, Typed[]][] {
  if (reading.loads) return slipsOfLoads(reading.loads, containers);
  const { digits, decimals, unit } = reading;
  const inSteps = (grams: number): number => Math.round((grams * 10 ** decimals) / GRAMS_PER[unit]);
  const kinds: [MistypeKind, Typed[]][] = [
    ...digitSlips(reading),
    [
      'decimal-slipped',
      [
        decimals > 0 ? { digits, decimals: decimals - 1, unit } : { digits: digits * 10, decimals, unit },
        { digits, decimals: decimals + 1, unit },
      ],
    ],
    ['wrong-unit', MIXED_UP[unit].map((other) => ({ digits, decimals, unit: other }))],
    ['tare-left-in', containers.map((grams) => ({ digits: digits - inSteps(grams), decimals, unit }))],
  ];
  const typed = readingGrams(reading);
  return kinds.map(([kind, slips]) => {
    const different = new Map(slips.map((slip) => [readingGrams(slip), slip]));
    different.delete(typed);
    return [kind, [...different.values()].filter(possible)];
  });
}

/** Of a sum one load went wrong: the others stand as they were typed. */
function slipsOfLoads(loads: readonly Load[], containers: readonly number[]): [MistypeKind, Typed[]][] {
  const slips = new Map<MistypeKind, Typed[]>();
  for (const [at, load] of loads.entries())
    for (const [kind, meant] of slipsByKind(load, containers)) {
      const sums = meant.map((one) => sumOf(loads.map((other, i) => (i === at ? one : other))));
      slips.set(kind, [...(slips.get(kind) ?? []), ...sums.filter(possible)]);
    }
  return [...slips];
}

function possible(slip: Typed): boolean {
  return slip.digits > 0 && slip.decimals <= MAX_DECIMALS && readingGrams(slip) <= MAX_READING_GRAMS;
}
