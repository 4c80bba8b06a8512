/**
 * What comes out of a batch, learned from the shop's own: a hierarchy of shop and product on the logit scale of the yield. The shop's other
 * products tell where this one's mean may lie, in standard deviations of their kinds, and
 * how far apart its batches may be.
 */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import type { RandomGenerator } from '../stats/random.ts';
import { inverseLogit, logit } from '../yield/tree.ts';
import { priorOf, SHOP_SHARE, SPREAD_BATCHES, type KindPrior, type LossKind } from './kind.ts';
import { drawBatches, mixtureCdf, mixtureQuantile, nextBatch, type Mixture } from './product-posterior.ts';
import { priorsFromSiblings, type LossLesson } from './siblings.ts';

/** One batch at one stage: stuffed to cooked, cooked to packed, or stuffed to packed. */
export interface LossBatch {
  readonly product: string;
  readonly kind: string;
  readonly inGrams: number;
  readonly outGrams: number;
}

export interface YieldForecast {
  /** Finished ÷ raw: the middle, and the range that holds the next batch with probability `level`. */
  readonly middle: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
  /** Batches of this product that it rests on. */
  readonly batches: number;
  /** Fewer than `LEARNED_BATCHES`: the assumption about its kind, to be shown beside it. Null from then on. */
  readonly assumed: LossKind | null;
}

export interface LossModel {
  /** @throws ValidationError `loss.kind-unknown`, `probability.out-of-range` */
  forecast(product: string, kind: string, level?: number): YieldForecast;
  /**
   * Yields of the next batch drawn at random, finished ÷ raw, spread evenly over the distribution behind `forecast`, for simulations.
   * @throws ValidationError `loss.kind-unknown`
   */
  draws(product: string, kind: string, count: number, random: RandomGenerator): number[];
  /**
   * How unusual a batch is for its product, the batch itself left out: the probability of one as far out on either side. Null while too
   * few others are known.
   * @throws ValidationError `loss.kind-unknown` and those of the batch
   */
  tailOf(batch: LossBatch, at?: number): number | null;
}

/** Batches of a product from which its range rests on them. */
export const LEARNED_BATCHES = 5;
/** Yields are kept so far from none and all, where the logit has no end. Our choice. */
const EDGE = 0.0005;

/**
 * @param shops what other shops teach, one list for each; without any the assumptions about the kinds are the start
 * @throws ValidationError `loss.kind-unknown`, `loss.assumption`, `grams.not-positive`, `number.not-finite`, `loss.gain` (more came out
 *   than went in)
 */
export function learnLoss(
  batches: readonly LossBatch[],
  kinds: readonly LossKind[],
  shops: readonly (readonly LossLesson[])[] = [],
): LossModel {
  const taught = shops.length > 0 ? priorsFromSiblings(kinds, shops) : null;
  const startOf = (kind: LossKind): KindPrior => taught?.get(kind.code) ?? priorOf(kind);
  const kindOf = (code: string): LossKind => {
    const found = kinds.find((kind) => kind.code === code);
    if (!found) throw new ValidationError('loss.kind-unknown', 'kind', { kind: code });
    return found;
  };
  const known = Map.groupBy(
    batches.map((batch, at) => ({ ...batch, at, y: yieldLogit(batch, `batches[${at}]`) })),
    ({ product }) => product,
  );
  const hints = [...known].map(([product, of]) => ({
    product,
    ...hintOf(
      of.map(({ y }) => y),
      startOf(kindOf(of[0]?.kind ?? '')),
    ),
  }));
  const mixture = (product: string, kind: LossKind, without?: number): { next: Mixture; n: number } => {
    const ys = (known.get(product) ?? []).flatMap(({ at, y }) => (at === without ? [] : [y]));
    const { location, scale, batchSd, logSd } = startOf(kind);
    const shop = shopEffect(hints.filter((hint) => hint.product !== product));
    const mean = {
      at: location + scale * shop.mean,
      variance: scale ** 2 * (1 - SHOP_SHARE + shop.variance),
    };
    return { next: nextBatch(ys, mean, { batchSd: batchSd * shop.spreadRatio, logSd }), n: ys.length };
  };
  return {
    forecast(product, code, level = 0.8) {
      if (!(level > 0 && level < 1)) throw new ValidationError('probability.out-of-range', 'level');
      const kind = kindOf(code);
      const { next, n } = mixture(product, kind);
      const at = (p: number): number => Math.max(EDGE, inverseLogit(mixtureQuantile(next, p)));
      const [low, middle, high] = [at((1 - level) / 2), at(0.5), at((1 + level) / 2)];
      return { low, middle, high, level, batches: n, assumed: n < LEARNED_BATCHES ? kind : null };
    },
    draws(product, code, count, random) {
      const { next } = mixture(product, kindOf(code));
      return drawBatches(next, count, random).map((y) => Math.max(EDGE, inverseLogit(y)));
    },
    tailOf(batch, at) {
      const { next, n } = mixture(batch.product, kindOf(batch.kind), at);
      if (n < LEARNED_BATCHES) return null;
      const below = mixtureCdf(next, yieldLogit(batch, 'batch'));
      return 2 * Math.min(below, 1 - below);
    },
  };
}

/**
 * What a product tells of the shop: how far its mean is off, in standard deviations of its kind, how surely, and how its batches spread
 * beside the typical spread.
 */
interface Hint {
  readonly deviation: number;
  readonly variance: number;
  readonly squares: number;
  readonly degrees: number;
}

function hintOf(ys: readonly number[], { location, scale, batchSd }: KindPrior): Hint {
  const average = ys.reduce((sum, y) => sum + y, 0) / ys.length;
  const squares = ys.reduce((sum, y) => sum + (y - average) ** 2, 0) / batchSd ** 2;
  const degrees = ys.length - 1;
  const spread = (batchSd ** 2 * (SPREAD_BATCHES + squares)) / (SPREAD_BATCHES + degrees);
  return {
    deviation: (average - location) / scale,
    variance: 1 - SHOP_SHARE + spread / ys.length / scale ** 2,
    squares,
    degrees,
  };
}

/** The shop's effect in standard deviations of a kind, normal with the prior N(0, SHOP_SHARE), and the ratio of its spreads. */
function shopEffect(hints: readonly Hint[]): { mean: number; variance: number; spreadRatio: number } {
  const precision = hints.reduce((sum, { variance }) => sum + 1 / variance, 1 / SHOP_SHARE);
  const pull = hints.reduce((sum, { deviation, variance }) => sum + deviation / variance, 0);
  const squares = hints.reduce((sum, hint) => sum + hint.squares, SPREAD_BATCHES);
  const degrees = hints.reduce((sum, hint) => sum + hint.degrees, SPREAD_BATCHES);
  return { mean: pull / precision, variance: 1 / precision, spreadRatio: Math.sqrt(squares / degrees) };
}

/** The logit of finished ÷ raw, kept off none and all. @throws ValidationError `grams.not-positive`, `loss.gain` */
export function yieldLogit({ inGrams, outGrams }: LossBatch, field: string): number {
  for (const [name, grams] of [['inGrams', inGrams], ['outGrams', outGrams]] as const)
    if (requireFinite(grams, `${field}.${name}`) <= 0)
      throw new ValidationError('grams.not-positive', `${field}.${name}`, { grams });
  if (outGrams > inGrams) throw new ValidationError('loss.gain', `${field}.outGrams`, { inGrams, outGrams });
  return logit(Math.min(1 - EDGE, Math.max(EDGE, outGrams / inGrams)));
} // prettier-ignore
