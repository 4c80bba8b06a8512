/**
 * What other shops' cooked and dried batches say of a kind of product: a sharper start in place of the assumption. Effects are
 * standard: the shop's hand, and each kind's distance from its assumption; shops of one owner share part of each
 * (`between-shops.ts`).
 */
import { averageGuess, guessesFrom, type ShopEvidence } from '../stats/between-shops.ts';
import { mixtureWeights } from '../stats/mixture.ts';
import { zeros } from '../stats/positive-definite.ts';
import { priorOf, SHOP_SHARE, SPREAD_BATCHES, type KindPrior, type LossKind } from './kind.ts';

/** One product of another shop: batches, sum and sum of squares of the logit of finished ÷ raw. No name goes along. */
export interface LossLesson {
  readonly kind: string;
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

/**
 * Where the mean of a product of each kind lies and how far apart its batches are.
 * @param shops lists of lessons, one for each shop; those of unknown kinds are left out
 */
export function priorsFromSiblings(
  kinds: readonly LossKind[],
  shops: readonly (readonly LossLesson[])[],
): ReadonlyMap<string, KindPrior> {
  const assumed = kinds.map((kind) => ({ code: kind.code, ...priorOf(kind) }));
  const size = kinds.length + 1;
  const variances = Array.from({ length: size }, (_, i) => (i === 0 ? SHOP_SHARE : 1 - SHOP_SHARE));
  const guesses = guessesFrom(
    { means: variances.map(() => 0), variances },
    shops.map((lessons) => evidenceOf(lessons, assumed)),
  );
  const { means, covariance } = averageGuess(guesses, mixtureWeights(guesses.map(({ logWeight }) => logWeight)));
  const spread = spreadOf(shops.flat(), assumed);
  return new Map(
    assumed.map(({ code, location, scale, batchSd, logSd }, i) => {
      const k = i + 1;
      const at = (row: number, column: number): number => covariance.values[row * size + column] ?? 0;
      const variance = at(0, 0) + 2 * at(0, k) + at(k, k);
      return [
        code,
        {
          location: location + scale * ((means[0] ?? 0) + (means[k] ?? 0)),
          scale: scale * Math.sqrt(variance),
          batchSd: batchSd * (spread?.ratio ?? 1),
          logSd: spread?.logSd ?? logSd,
        },
      ];
    }),
  );
} // prettier-ignore

type Assumed = readonly (KindPrior & { readonly code: string })[];

/** Several products of one kind count as one mean: they differ from the owner's kind by more than their batches tell. */
function evidenceOf(lessons: readonly LossLesson[], assumed: Assumed): ShopEvidence {
  const size = assumed.length + 1;
  const information = zeros(size);
  const moments = new Array<number>(size).fill(0);
  assumed.forEach(({ code, location, scale, batchSd }, i) => {
    const of = lessons.filter(({ kind }) => kind === code);
    if (of.length === 0) return;
    const deviation = of.reduce((sum, { n, sum: total }) => sum + (total / n - location) / scale, 0) / of.length;
    const variance = of.reduce((sum, one) => sum + varianceOf(one, batchSd) / one.n, 0) / of.length ** 2 / scale ** 2;
    for (const row of [0, i + 1]) {
      moments[row] = (moments[row] ?? 0) + deviation / variance;
      for (const column of [0, i + 1])
        information.values[row * size + column] = (information.values[row * size + column] ?? 0) + 1 / variance;
    }
  });
  return { information, moments };
} // prettier-ignore

/** The variance from batch to batch of one product, with the typical one as prior. */
function varianceOf(lesson: LossLesson, batchSd: number): number {
  const { squares, degrees } = within(lesson);
  return (batchSd ** 2 * SPREAD_BATCHES + squares) / (SPREAD_BATCHES + degrees);
}

/** Squares about the product's own mean, and their degrees of freedom. */
function within({ n, sum, squares }: LossLesson): { squares: number; degrees: number } {
  return { squares: Math.max(0, squares - sum ** 2 / n), degrees: n - 1 };
}

/**
 * The typical spread over the assumed one, and how far products' own spreads lie about it: the variance of the logarithm of a
 * sample SD is that of the true one plus trigamma(degrees / 2) / 4 (Bartlett & Kendall, J. R. Stat. Soc. Suppl. 8:128, 1946;
 * from memory). The assumed distance counts as one product.
 */
function spreadOf(lessons: readonly LossLesson[], assumed: Assumed): { ratio: number; logSd: number } | null {
  const known = lessons.flatMap((lesson) => {
    const kind = assumed.find(({ code }) => code === lesson.kind);
    const { squares, degrees } = within(lesson);
    return kind && degrees > 0 && squares > 0 ? [{ squares: squares / kind.batchSd ** 2, degrees, logSd: kind.logSd }] : [];
  });
  const [first] = known;
  if (!first) return null;
  const logs = known.map(({ squares, degrees }) => Math.log((SPREAD_BATCHES + squares) / (SPREAD_BATCHES + degrees)) / 2);
  const middle = logs.reduce((sum, log) => sum + log, 0) / (logs.length + 1);
  const scatter = known.reduce((sum, { squares, degrees }) => {
    const log = Math.log(squares / degrees) / 2;
    return sum + Math.max(0, (log - middle) ** 2 - trigamma(degrees / 2) / 4);
  }, 0);
  return { ratio: Math.exp(middle), logSd: Math.sqrt((first.logSd ** 2 + scatter) / (1 + known.length)) };
} // prettier-ignore

/** From 2 on within 1 % (Abramowitz & Stegun, Handbook of Mathematical Functions, 6.4.12; from memory). */
function trigamma(x: number): number {
  return 1 / x + 1 / (2 * x ** 2) + 1 / (6 * x ** 3);
}
