/** The guesses about one split that follow from other shops' animals (`lessons.ts`). */
import { guessesFrom, type ShopEvidence, type ShopGuess } from '../stats/between-shops.ts';
import { zeros, type Square } from '../stats/positive-definite.ts';
import type { SpeciesProfile } from '../species/species.ts';
import { reweightPriors } from './conflict.ts';
import { layoutOf, priorOf, type Layout } from './layout.ts';
import type { LessonSums, YieldLesson } from './lessons.ts';
import { poolOf, requireBase, type Pool } from './pool.ts';
import { posteriorOf, PRIOR_DEGREES, type CrossProducts } from './regression.ts';
import type { Split } from './tree.ts';

type Shops = readonly (readonly YieldLesson[])[];

/** By species profiles and shops: neither changes from one animal to the next. */
const known = new WeakMap<readonly SpeciesProfile[], WeakMap<Shops, Map<string, ShopGuess[] | null>>>();

/** Null where no shop has animals for this split. Species without a profile here are left out. */
export function siblingGuesses(
  profiles: readonly SpeciesProfile[],
  shops: Shops,
  pool: Pool,
  split: Split,
): readonly ShopGuess[] | null {
  if (shops.length === 0) return null;
  const ofProfiles = known.get(profiles) ?? new WeakMap<Shops, Map<string, ShopGuess[] | null>>();
  known.set(profiles, ofProfiles);
  const ofShops = ofProfiles.get(shops) ?? new Map<string, ShopGuess[] | null>();
  ofProfiles.set(shops, ofShops);
  const key = `${pool}/${split}`;
  let guesses = ofShops.get(key);
  if (guesses === undefined) ofShops.set(key, (guesses = computeGuesses(profiles, shops, pool, split)));
  return guesses;
}

function computeGuesses(
  profiles: readonly SpeciesProfile[],
  shops: Shops,
  pool: Pool,
  split: Split,
): ShopGuess[] | null {
  const layout = layoutOf(profiles);
  const columns = layout.columns(split);
  const told = shops.map((lessons) => rowsOf(layout, lessons, pool, split)).filter((rows) => rows.length > 0);
  if (told.length === 0) return null;
  // Where all shops together contradict a published figure, the owner's effect may lie far from it.
  const together = reweightPriors(columns, posteriorOf(columns, productsOf(columns.length, told.flat())));
  return guessesFrom(
    { means: columns.map(({ priorMean }) => priorMean), variances: columns.map(({ variance }) => variance) },
    told.map((rows) => evidenceOf(columns.length, rows)),
    together.columns.map(({ variance }) => variance),
  );
}

/** One cell in standard units, with the weight of each column in its mean. */
interface Row extends LessonSums {
  readonly weights: ReadonlyMap<number, number>;
  /** Sum of squares about the cell's own mean. */
  readonly within: number;
}

function rowsOf(layout: Layout, lessons: readonly YieldLesson[], pool: Pool, split: Split): Row[] {
  return lessons.flatMap((lesson): Row[] => {
    const sums = lesson.splits[split];
    const profile = layout.byCode.get(lesson.species);
    if (!sums || !profile || poolOf(lesson) !== pool) return [];
    const weights = new Map<number, number>();
    const add = (name: string, weight: number): void => {
      const index = layout.columnIndexByName.get(name);
      if (index !== undefined) weights.set(index, weight);
    };
    for (const name of ['shop:', `family:${profile.family}`, `species:${profile.code}`, `brought:${lesson.brought}`])
      add(name, 1);
    const sexes = sharesOf(lesson.sexes);
    for (const [kind, levels] of [['sex', sexes], ['age', sharesOf(lesson.ages)], ['damage', sharesOf(lesson.damages)]] as const)
      for (const [level, share] of levels) add(`${kind}:${level}`, share);
    const priors = sexes.map(([sex, share]) => ({ share, ...priorOf(layout.priors, profile.code, requireBase(lesson), sex)[split] }));
    const location = priors.reduce((sum, prior) => sum + prior.share * prior.location, 0);
    const scale = priors[0]?.scale ?? 1;
    const { n, sum, squares } = sums;
    return [
      {
        weights,
        n,
        sum: (sum - n * location) / scale,
        squares: (squares - 2 * location * sum + n * location ** 2) / scale ** 2,
        within: Math.max(0, squares - sum ** 2 / n) / scale ** 2,
      },
    ];
  });
} // prettier-ignore

/** Shares that add up to 1; `unknown` where none is told. */
function sharesOf<L extends string>(told: Readonly<Partial<Record<L, number>>>): [L | 'unknown', number][] {
  const entries = Object.entries(told) as [L, number][];
  const total = entries.reduce((sum, [, share]) => sum + share, 0);
  return total > 0 ? entries.map(([level, share]) => [level, share / total]) : [['unknown', 1]];
}

function productsOf(size: number, rows: readonly Row[]): CrossProducts {
  const gram = zeros(size);
  const moments = new Array<number>(size).fill(0);
  let [n, squares] = [0, 0];
  for (const row of rows) {
    n += row.n;
    squares += row.squares;
    for (const [i, one] of row.weights) {
      moments[i] = (moments[i] ?? 0) + one * row.sum;
      for (const [j, other] of row.weights)
        gram.values[i * size + j] = (gram.values[i * size + j] ?? 0) + one * other * row.n;
    }
  }
  return { gram, moments, squares, n };
}

/** The animals of a shop at its own spread, which the variation within its cells tells. */
function evidenceOf(size: number, rows: readonly Row[]): ShopEvidence {
  const { gram, moments } = productsOf(size, rows);
  const within = rows.reduce((sum, row) => sum + row.within, PRIOR_DEGREES - 2);
  const degrees = rows.reduce((sum, { n }) => sum + n - 1, PRIOR_DEGREES);
  const variance = within / degrees;
  const information: Square = { size, values: gram.values.map((value) => value / variance) };
  return { information, moments: moments.map((value) => value / variance) };
}
