/**
 * Made-up shops whose animals break what the balance assumes: damage is zero or gamma instead of log-normal, parts are
 * log-ratios that move together instead of normal shares, one animal in 25 is odd, readings are rounded to half a pound,
 * the scale at the hook and the one at the table differ by 1 %, and some totes are never weighed.
 */
import { readFileSync } from 'node:fs';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import type { SpeciesProfile } from '../../src/core/species/species.ts';

const profiles = JSON.parse(
  readFileSync(new URL('../../resources/species.json', import.meta.url), 'utf8'),
) as SpeciesProfile[];

export const PARTS = ['meat', 'fatSaved', 'sinew', 'bone'] as const;
export type Sound = (typeof PARTS)[number];
export type TablePart = 'whole cuts' | 'trim' | 'fat saved' | 'sinew' | 'bone' | 'damage';

/** The true figures of one shop for one kind of animal. */
export interface Shop {
  readonly species: SpeciesProfile;
  /** What the hook scale reads of a true pound; the table scale is right. */
  readonly hookScale: number;
  /** Share of the animals of which some tote is never weighed. */
  readonly missing: number;
  /** Of the log-ratios ln(part / meat): means and covariance, in the order of `PARTS` without meat. */
  readonly ratios: { readonly mean: readonly number[]; readonly covariance: readonly (readonly number[])[] };
  /** Animals without damage; the others' damage as a gamma share of the whole. */
  readonly damage: { readonly zero: number; readonly shape: number; readonly mean: number };
  /** Shrink between hook and packages, a log-normal share. */
  readonly shrink: { readonly logMean: number; readonly logSd: number };
  /** Containers that the shop takes off, in pounds. */
  readonly containers: readonly number[];
}

export const ODD = { chance: 0.04, spread: 2.5 } as const;
/** Spread of ln(part / meat) from animal to animal: bone moves with sinew, fat against bone. Assumption. */
const RATIO_SD = [0.5, 0.22, 0.13] as const;
const CORRELATION = [
  [1, 0.2, -0.4],
  [0.2, 1, 0.5],
  [-0.4, 0.5, 1],
] as const;
/** Shops differ from the published means by about this share of what animals differ by. */
const BETWEEN = 0.5;
const BETWEEN_SD = RATIO_SD.map((sd) => BETWEEN * sd);
export const STEP = 0.5;
/** How a tote comes to be missing, by part. */
export const MISSED = { damage: 0.6, sinew: 0.25, bone: 0.15 } as const;

/** Shrink varies by this much from animal to animal, and as much from shop to shop: standard deviations of its logarithm. */
const SHRINK_SD = { animals: 0.3, shops: 0.25 } as const;
/** The hook scale reads so much of a true pound. */
export const HOOK_SCALES = [0.99, 1.01] as const;

export function openShop(
  missing: number,
  seed: number,
  code = 'white-tail',
): { shop: Shop; chance: RandomGenerator } {
  const chance = seededRandom(seed);
  const published = publishedShop(missing, code);
  const { ratios, shrink } = published;
  const shop: Shop = {
    ...published,
    hookScale: HOOK_SCALES[chance.uniform() < 0.5 ? 0 : 1],
    ratios: {
      ...ratios,
      mean: ratios.mean.map((mean, i) => mean + (BETWEEN_SD[i] ?? 0) * chance.normal()),
    },
    shrink: { ...shrink, logMean: shrink.logMean + SHRINK_SD.shops * chance.normal() },
  };
  return { shop, chance };
}

/** The shop in the middle of all shops: what somebody may read who was never there. Its hook scale is right. */
function publishedShop(missing: number, code: string): Shop {
  const species = profiles.find((profile) => profile.code === code);
  if (!species) throw new Error(`no ${code}`);
  const lost = 1 - species.takeHome.mean;
  const meat = species.takeHome.mean - species.ownFat.mean;
  const { bone, sinew, damage, shrink } = species.loss;
  const means = [species.ownFat.mean / meat, (sinew.mean * lost) / meat, (bone.mean * lost) / meat];
  return {
    species,
    hookScale: 1,
    missing,
    ratios: {
      mean: means.map((ratio) => Math.log(ratio)),
      covariance: CORRELATION.map((row, i) => row.map((r, j) => r * (RATIO_SD[i] ?? 0) * (RATIO_SD[j] ?? 0))),
    },
    damage: { zero: 0.35, shape: 1.5, mean: (damage.mean * lost) / 0.65 },
    shrink: { logMean: Math.log(shrink.mean * lost), logSd: SHRINK_SD.animals },
    containers: [2.5, 4],
  };
}

/** What somebody knows of a shop: figures and how far they may be off. */
export interface Figures extends Omit<Shop, 'hookScale'> {
  /** What its hook scale may read of a true pound, each as likely. */
  readonly hookScales: readonly number[];
  /** Standard deviations by which the means of the log-ratios may be off. */
  readonly meanSd: readonly number[];
}

/** The shop's true figures. */
export function trueFigures({ hookScale, ...shop }: Shop): Figures {
  return { ...shop, hookScales: [hookScale], meanSd: shop.ratios.mean.map(() => 0) };
}

/**
 * What is known of a shop that nobody has seen an animal of: the published means, and how far shops and animals differ. All
 * that shops differ by is normal, so that one animal of an unknown shop is as one with these wider spreads, exactly.
 */
export function publishedFigures({ missing, species }: Pick<Shop, 'missing' | 'species'>): Figures {
  const shop = publishedShop(missing, species.code);
  return {
    ...trueFigures(shop),
    hookScales: HOOK_SCALES,
    meanSd: BETWEEN_SD,
    shrink: { ...shop.shrink, logSd: Math.hypot(SHRINK_SD.animals, SHRINK_SD.shops) },
  };
}

export interface Animal {
  readonly hangingLb: number;
  /** True pounds; damage 0 where there is none. */
  readonly parts: Readonly<Record<Sound | 'damage', number>>;
}

export function draw(shop: Shop, chance: RandomGenerator): Animal {
  const typical = shop.species.hangingGrams.typical / 453.59237;
  const hangingLb = typical * Math.exp(0.2 * chance.normal());
  const damage =
    chance.uniform() < shop.damage.zero
      ? 0
      : Math.min(0.4, (chance.gamma(shop.damage.shape) * shop.damage.mean) / shop.damage.shape);
  const shrink = Math.min(0.2, Math.exp(shop.shrink.logMean + shop.shrink.logSd * chance.normal()));
  const spread = chance.uniform() < ODD.chance ? ODD.spread : 1;
  const off = correlated(chance);
  const ratios = [
    1,
    ...off.map((z, i) => Math.exp((shop.ratios.mean[i] ?? 0) + spread * (RATIO_SD[i] ?? 0) * z)),
  ];
  const rest = (1 - damage - shrink) / ratios.reduce((sum, ratio) => sum + ratio, 0);
  const [meat = 0, fatSaved = 0, sinew = 0, bone = 0] = ratios.map((ratio) => ratio * rest * hangingLb);
  return { hangingLb, parts: { meat, fatSaved, sinew, bone, damage: damage * hangingLb } };
}

/** Three standard normals with `CORRELATION`, by its Cholesky factor. */
function correlated(chance: RandomGenerator): number[] {
  const z = [chance.normal(), chance.normal(), chance.normal()];
  return CHOLESKY.map((row) => row.reduce((sum, factor, i) => sum + factor * (z[i] ?? 0), 0));
}
const CHOLESKY = cholesky(CORRELATION);
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const factor = matrix.map((row) => row.map(() => 0));
  matrix.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      let rest = row[j] ?? 0;
      for (let k = 0; k < j; k++) rest -= (factor[i]?.[k] ?? 0) * (factor[j]?.[k] ?? 0);
      (factor[i] as number[])[j] = i === j ? Math.sqrt(rest) : rest / (factor[j]?.[j] ?? 1);
    }
  });
  return factor;
}

/** One tote on the scale: what was on it, the container it is in, and whether it is ever weighed. */
export interface Tote {
  readonly part: TablePart;
  readonly lb: number;
  readonly container: number;
}

export interface Weighed {
  readonly hangingLb: number;
  readonly totes: readonly Tote[];
  /** No damage, and the shop said so. */
  readonly saysNoDamage: boolean;
}

/** What the shop reads off its scales, in half pounds; what weighs less than half a step is not weighed. */
export function weighed(shop: Shop, animal: Animal, chance: RandomGenerator): Weighed {
  const step = (lb: number): number => Math.round(lb / STEP) * STEP;
  const missed = chance.uniform() < shop.missing ? pickMissed(chance) : null;
  const totes: Tote[] = [];
  const put = (part: TablePart, lb: number, count: number): void => {
    const shares = Array.from({ length: count }, () => 0.7 + 0.6 * chance.uniform());
    const all = shares.reduce((sum, share) => sum + share, 0);
    for (const share of shares) {
      const net = step((lb * share) / all);
      const container = chance.uniform() < 0.7 ? (shop.containers[chance.uniform() < 0.6 ? 0 : 1] ?? 0) : 0;
      if (net > 0) totes.push({ part, lb: net, container });
    }
  };
  const cuts = 0.3 + 0.3 * chance.uniform();
  const count = (most: number): number => 1 + Math.floor(most * chance.uniform());
  put('whole cuts', animal.parts.meat * cuts, count(2));
  put('trim', animal.parts.meat * (1 - cuts), count(3));
  put('fat saved', animal.parts.fatSaved, 1);
  if (missed !== 'bone') put('bone', animal.parts.bone, count(2));
  if (missed !== 'sinew') put('sinew', animal.parts.sinew, 1);
  if (missed !== 'damage') put('damage', animal.parts.damage, 1);
  return {
    hangingLb: step(animal.hangingLb * shop.hookScale),
    totes,
    saysNoDamage: animal.parts.damage === 0 && missed !== 'damage',
  };
}

function pickMissed(chance: RandomGenerator): keyof typeof MISSED {
  const at = chance.uniform();
  return at < MISSED.damage ? 'damage' : at < MISSED.damage + MISSED.sinew ? 'sinew' : 'bone';
}
