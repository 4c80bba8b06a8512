/**
 * The best that any test could do: the likelihood ratio of "some slip" against "none" (Neyman & Pearson), with the shop's true
 * figures or with what is published. Parts that were not weighed are integrated over; rounding counts as added variance.
 */
import { explain, type Change } from '../../src/core/balance/explain.ts';
import { logSumExp } from '../../src/core/stats/log-sum-exp.ts';
import { parseReading, readingGrams } from '../../src/core/values/reading.ts';
import type { Seen } from './shop-floor.ts';
import { MISSED, ODD, PARTS, STEP, type Figures, type Sound } from './world.ts';

const POUND = 453.59237;
/** Points at which an unweighed part is tried, and damage that nobody weighed. */
const POINTS = 40;
const DAMAGE_POINTS = 80;
/** A reading that belongs elsewhere could be anything up to this share of the animal. */
const STRAY_RANGE = 0.3;

/** Odds that some weight is wrong, as somebody would put them who knows these figures. */
export function bestOdds(figures: Figures, seen: Seen): number {
  const hanging = grams(seen.hanging) / POUND;
  const rows = seen.entries.map(({ part, typed, tareTyped }, i) => {
    const tareGrams = tareTyped ? grams(tareTyped) : 0;
    return {
      id: `${i}`,
      part,
      reading: parseReading(typed, 'lb'),
      tareGrams,
      lb: (grams(typed) - tareGrams) / POUND,
    };
  });
  const hook = {
    id: 'hanging',
    part: 'hanging',
    reading: parseReading(seen.hanging, 'lb'),
    tareGrams: 0,
    lb: hanging,
  };
  const all = [hook, ...rows];
  const fit = (change?: Change): number => {
    const kept = all.flatMap((row) => {
      if (row.id !== change?.id) return [row];
      return change.as === 'weight' ? [{ ...row, lb: change.grams / POUND }] : [];
    });
    const stray = change && change.as !== 'weight' ? -Math.log(STRAY_RANGE) : 0;
    const whole = kept.find(({ id }) => id === 'hanging');
    if (!whole) return -Infinity;
    const table = kept.filter((row) => row !== whole);
    const scales = figures.hookScales.map((reads) =>
      logDensity(figures, whole.lb / reads, table, seen.saysNoDamage),
    );
    return stray + logSumExp(scales) - Math.log(scales.length);
  };
  const entered = all.map((row, i) => ({
    ...row,
    hasDuplicate: all
      .slice(0, i)
      .some((other) => other.part === row.part && Math.abs(other.lb - row.lb) < 0.001),
  }));
  return explain(entered, fit, () => figures.containers.map((lb) => lb * POUND)).odds;
}

const grams = (typed: string): number => readingGrams(parseReading(typed, 'lb'));

const OF_PART: Readonly<Record<string, Sound | 'damage'>> = {
  'whole cuts': 'meat',
  trim: 'meat',
  'fat saved': 'fatSaved',
  sinew: 'sinew',
  bone: 'bone',
  damage: 'damage',
};

type Shares = Partial<Record<Sound | 'damage', number>>;

function logDensity(
  figures: Figures,
  hanging: number,
  rows: readonly { part: string; lb: number }[],
  saysNoDamage: boolean,
): number {
  const share: Shares = {};
  const steps: Shares = {};
  for (const { part, lb } of rows) {
    const of = OF_PART[part] as Sound | 'damage';
    share[of] = (share[of] ?? 0) + lb / hanging;
    steps[of] = (steps[of] ?? 0) + 1;
  }
  // Fat too little for the scale's step is not weighed.
  share.fatSaved ??= STEP / 4 / hanging;
  const typical = figures.species.hangingGrams.typical / POUND;
  const size = -0.5 * (Math.log(hanging / typical) / 0.2) ** 2;
  const missing = PARTS.filter((part) => share[part] === undefined);
  const noise = (part: Sound, of: Shares): number =>
    (Math.sqrt(steps[part] ?? 1) * (STEP / Math.sqrt(12))) /
    hanging /
    Math.max(of[part] ?? 0.01, STEP / hanging);
  const damages =
    share.damage === undefined
      ? damageAtoms(figures, saysNoDamage)
      : [[share.damage, damageLog(figures, share.damage)] as const];
  const known = (of: Shares): number => {
    const parts = PARTS.map((part) => of[part] ?? 0);
    const left = 1 - parts.reduce((sum, one) => sum + one, 0);
    const lost = damages.map(([damage, log]) => log + shrinkLog(figures, left - damage, hanging));
    return logSumExp(lost) + soundLog(figures, parts, (part) => noise(part, of));
  };
  if (missing.length === 0) return size + known(share);
  if (missing.length > 1) return -Infinity;
  const [part] = missing;
  const most = 0.45;
  const grid = Array.from({ length: POINTS }, (_, i) => ((i + 0.5) * most) / POINTS);
  const rate = Math.log(figures.missing * (part === 'bone' ? MISSED.bone : MISSED.sinew) || 1e-6);
  return (
    size +
    rate +
    logSumExp(grid.map((value) => known({ ...share, [part as Sound]: value }))) +
    Math.log(most / POINTS)
  );
}

/** Damage that nobody weighed: none, or an amount that was missed; or none, said aloud. */
function damageAtoms(figures: Figures, saysNoDamage: boolean): (readonly [number, number])[] {
  const { zero } = figures.damage;
  if (saysNoDamage) return [[0, Math.log(zero)]];
  const missed = figures.missing * MISSED.damage;
  const width = 0.4 / DAMAGE_POINTS;
  const positive = Array.from({ length: DAMAGE_POINTS }, (_, i) => {
    const value = (i + 0.5) * width;
    return [value, Math.log(missed || 1e-6) + damageLog(figures, value) + Math.log(width)] as const;
  });
  return [[0, Math.log(zero * missed || 1e-6)], ...positive];
}

function damageLog({ damage: { zero, shape, mean } }: Figures, share: number): number {
  const scale = mean / shape;
  return (
    Math.log(1 - zero) +
    (shape - 1) * Math.log(share) -
    share / scale -
    shape * Math.log(scale) -
    logGamma(shape)
  );
}

/** What closes the balance: log-normal, and near zero the rounding's. */
function shrinkLog({ shrink: { logMean, logSd } }: Figures, share: number, hanging: number): number {
  const rounding = ((STEP / Math.sqrt(12)) * Math.sqrt(6)) / hanging;
  const middle = Math.exp(logMean);
  if (!(share > rounding / 4)) return -0.5 * ((share - middle) / rounding) ** 2;
  const sd = Math.hypot(logSd, rounding / Math.max(share, middle / 4));
  const z = (Math.log(share) - logMean) / sd;
  return -0.5 * z * z - Math.log(sd * share);
}

/** The log-ratios of the sound parts, one animal in 25 being odd. */
function soundLog(
  { ratios, meanSd }: Figures,
  parts: readonly number[],
  noise: (part: Sound) => number,
): number {
  const [meat = 0, ...others] = parts;
  const rest = parts.reduce((sum, share) => sum + share, 0);
  const off = others.map((share, i) => Math.log(Math.max(share, 1e-6) / meat) - (ratios.mean[i] ?? 0));
  const jacobian = Math.log(rest) - parts.reduce((sum, share) => sum + Math.log(Math.max(share, 1e-6)), 0);
  const kinds = [
    [1 - ODD.chance, 1],
    [ODD.chance, ODD.spread],
  ] as const;
  const ofMeat = noise('meat') ** 2;
  const own = PARTS.slice(1).map((part, i) => noise(part) ** 2 + (meanSd[i] ?? 0) ** 2);
  return (
    jacobian +
    logSumExp(
      kinds.map(([chance, spread]) => {
        const covariance = ratios.covariance.map((row, i) =>
          row.map((value, j) => value * spread * spread + ofMeat + (i === j ? (own[i] ?? 0) : 0)),
        );
        return Math.log(chance) + logNormal(off, covariance);
      }),
    )
  );
}

/** Log-density of a three-dimensional normal, by Cholesky. */
function logNormal(off: readonly number[], covariance: readonly (readonly number[])[]): number {
  const factor: number[][] = covariance.map((row) => row.map(() => 0));
  const solved: number[] = [];
  let log = 0;
  covariance.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      let rest = row[j] ?? 0;
      for (let k = 0; k < j; k++) rest -= (factor[i]?.[k] ?? 0) * (factor[j]?.[k] ?? 0);
      (factor[i] as number[])[j] = i === j ? Math.sqrt(rest) : rest / (factor[j]?.[j] ?? 1);
    }
    const done = solved.reduce((sum, value, k) => sum + value * (factor[i]?.[k] ?? 0), 0);
    const value = ((off[i] ?? 0) - done) / (factor[i]?.[i] ?? 1);
    solved.push(value);
    log -= 0.5 * value * value + Math.log(factor[i]?.[i] ?? 1) + 0.5 * Math.log(2 * Math.PI);
  });
  return log;
}

/** ln Γ for the few shapes above 0.5 that are used here, by Stirling's series after a shift. */
function logGamma(x: number): number {
  let shift = 0;
  let at = x;
  while (at < 8) {
    shift -= Math.log(at);
    at += 1;
  }
  return (
    shift + (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + 1 / (12 * at) - 1 / (360 * at ** 3)
  );
}
