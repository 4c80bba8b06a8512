/**
 * What a shop's animals teach others: for each species and way of bringing a count, a sum and a sum of squares of every split.
 * Sex, age and shot damage are told as rounded shares alone. No cell has fewer than `LEAST_ANIMALS` animals.
 */
import type { Age, Brought, Damage, Sex } from '../species/species.ts';
import type { Cell, YieldSums } from './sums.ts';
import { SPLITS, type Split } from './tree.ts';

/**
 * Fewest animals of a cell: a threshold of 3 to 5 is the common rule for tables given out (Hundepool et al., Statistical
 * Disclosure Control, 2012, ch. 4; from memory). With count, sum and squares, two animals could be solved for exactly.
 */
export const LEAST_ANIMALS = 5;

/** Count, sum and sum of squares of the logit shares (`logit` of `tree.ts`). */
export interface LessonSums {
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

/** One species brought in one way. The shares of each record add up to 1 up to rounding. */
export interface YieldLesson {
  readonly species: string;
  readonly brought: Brought;
  readonly animals: number;
  readonly sexes: Readonly<Partial<Record<Sex, number>>>;
  readonly ages: Readonly<Partial<Record<Age, number>>>;
  readonly damages: Readonly<Partial<Record<Damage, number>>>;
  readonly splits: Readonly<Partial<Record<Split, LessonSums>>>;
}

/** @param speciesKnown species that mean the same in every shop: a shop's own ones stay with it */
export function lessonsFrom(sums: YieldSums, speciesKnown: ReadonlySet<string>): YieldLesson[] {
  const kinds = Map.groupBy(
    Object.values(sums).filter(({ group }) => speciesKnown.has(group.species)),
    ({ group: { species, brought } }) => `${species}/${brought}`,
  );
  return [...kinds.values()].flatMap((cells) => {
    const animals = cells.reduce((total, cell) => total + countOf(cell), 0);
    const [first] = cells;
    if (!first || animals < LEAST_ANIMALS) return [];
    const { species, brought } = first.group;
    const splits = Object.fromEntries(
      SPLITS.flatMap((split) => {
        const all = addUp(cells, split);
        return all.n < LEAST_ANIMALS ? [] : [[split, all]];
      }),
    );
    return [
      {
        species,
        brought,
        animals,
        sexes: sharesOf(cells, animals, 'sex'),
        ages: sharesOf(cells, animals, 'age'),
        damages: sharesOf(cells, animals, 'damage'),
        splits,
      },
    ];
  });
}

/** Every observation has a take-home weight. */
function countOf({ splits }: Cell): number {
  return splits.takeHome?.n ?? 0;
}

function addUp(cells: readonly Cell[], split: Split): LessonSums {
  const all = { n: 0, sum: 0, squares: 0 };
  for (const { splits } of cells) {
    const { n, sum, squares } = splits[split] ?? { n: 0, sum: 0, squares: 0 };
    all.n += n;
    all.sum += sum;
    all.squares += squares;
  }
  return all;
}

/** In tenths, so that no share shows a single animal. */
function sharesOf<K extends 'sex' | 'age' | 'damage'>(
  cells: readonly Cell[],
  animals: number,
  by: K,
): Partial<Record<Cell['group'][K], number>> {
  const counts = new Map<Cell['group'][K], number>();
  for (const cell of cells) counts.set(cell.group[by], (counts.get(cell.group[by]) ?? 0) + countOf(cell));
  const tenths = [...counts].map(([level, n]) => [level, Math.round((10 * n) / animals) / 10] as const);
  return Object.fromEntries(tenths.filter(([, share]) => share > 0)) as Partial<
    Record<Cell['group'][K], number>
  >;
}
