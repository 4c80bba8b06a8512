/** Made-up answers of the desk for the charts of the Season. */
import type {
  PoundsReport,
  SpeciesYield,
  DistributionSummary,
  YieldsReport,
} from '../../src/bridge/contract.ts';
import { makeFormat } from '../../src/ui/texts/format.ts';

export const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const LB = 453.59237;

export function spreadOf(values: readonly number[]): DistributionSummary | null {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (p: number): number => {
    const rank = (sorted.length - 1) * p;
    const [below, above] = [sorted[Math.floor(rank)] ?? NaN, sorted[Math.ceil(rank)] ?? NaN];
    return below + (above - below) * (rank % 1);
  };
  const mean = sorted.reduce((total, one) => total + one, 0) / sorted.length;
  return sorted.length === 0
    ? null
    : { n: sorted.length, low: at(0), q1: at(0.25), median: at(0.5), q3: at(0.75), high: at(1), mean };
}

export function species(name: string, shares: number[], more: Partial<SpeciesYield> = {}): SpeciesYield {
  return {
    code: name.toLowerCase().replaceAll(' ', '-'),
    name,
    spread: spreadOf(shares),
    points: shares.map((share, i) => ({ ticket: `26-000${i + 1}`, share })),
    published: { low: 0.45, high: 0.55, grade: 'measured', source: `Source of ${name}` },
    seasons: [],
    splits: { brought: [], sex: [], age: [], damaged: [], detail: [], cutter: [] },
    ...more,
  };
}

export function yields(some: Partial<YieldsReport>): YieldsReport {
  return { season: 2026, animals: 0, takeHomeGrams: 0, withoutShare: 0, species: [], ...some };
}

/** 100 lb hanging: 30 cuts, 30 trim, 2 fat, 20 bone, 9 sinew, 3 damage, 5 shrink, 1 unexplained. */
export function pounds(some: Partial<PoundsReport> = {}): PoundsReport {
  const parts = { 'whole cuts': 30, trim: 30, 'fat saved': 2, bone: 20, sinew: 9, damage: 3 } as const;
  return {
    season: 2026,
    n: 12,
    others: 3,
    baseGrams: 100 * LB,
    parts: Object.entries(parts).map(([part, lb]) => ({ part: part as keyof typeof parts, grams: lb * LB })),
    damageUnknown: 0,
    shrinkGrams: 5 * LB,
    unexplainedGrams: 1 * LB,
    overGrams: 0,
    grinder: {
      batches: 2,
      inGrams: 30 * LB,
      fatGrams: 3 * LB,
      addedGrams: 0,
      outGrams: 32 * LB,
      lossGrams: 1 * LB,
      driedGrams: 0,
    },
    made: [],
    packedGrams: 62 * LB,
    minorPerKg: 300,
    losses: [
      { what: 'bone', grams: 20 * LB, share: 0.2, minor: 2722 },
      { what: 'sinew', grams: 9 * LB, share: 0.09, minor: 1225 },
    ],
    species: [],
    ...some,
  };
}
