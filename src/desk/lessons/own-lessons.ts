/**
 * What this shop has learned of its own animals and batches, ready to be given to others. Two texts laid side by side show no
 * single animal either: a sum that was given before stands as it was until five more have gone into it.
 */
import { randomUUID } from 'node:crypto';
import { LEAST_ANIMALS, lessonsFrom, type YieldLesson } from '../../core/yield/yield.ts';
import { fatLessonFrom, type FatLesson } from '../../core/fat/siblings.ts';
import type { LossLesson } from '../../core/loss/siblings.ts';
import { yieldLogit, type LossBatch } from '../../core/loss/loss.ts';
import { ownFatState } from '../learning/fat-learning.ts';
import { kindKey } from '../learning/fat-estimates.ts';
import { LEAST_BATCHES, type LessonText } from '../learning/lesson-text.ts';
import type { Session } from '../session/session.ts';
import { SPECIES } from '../supplied/resources.ts';

/** As it is kept in the book: products keep the recipe that they were made by, which no text tells. */
export interface KeptLessons extends Omit<LessonText, 'losses'> {
  readonly losses: readonly (LossLesson & { readonly recipe: string })[];
}

/** Species that mean the same animal in every shop. */
const KNOWN: ReadonlySet<string> = new Set(SPECIES.map(({ code }) => code));

/** @param before what was given last; null: nothing yet */
export function ownLessons(session: Session, before: KeptLessons | null): KeptLessons {
  const yields = lessonsFrom(session.yields.sums, KNOWN).map((lesson) =>
    keptYield(lesson, before?.yields.find((one) => one.species === lesson.species && one.brought === lesson.brought)),
  );
  const losses = productsOf(session.losses.lots).map(
    (product) => keptSums(product, before?.losses.find(({ recipe }) => recipe === product.recipe)),
  );
  const fat = keptFat(fatOf(session), before?.fat ?? null);
  return {
    source: before?.source ?? randomUUID(),
    made: session.today(),
    animals: yields.reduce((sum, { animals }) => sum + animals, 0),
    batches: losses.reduce((sum, { n }) => sum + n, 0),
    yields,
    fat,
    losses,
  };
} // prettier-ignore

/** Animals and batches that this shop could tell of. */
export function countsOf(session: Session): { animals: number; batches: number } {
  return {
    animals: lessonsFrom(session.yields.sums, KNOWN).reduce((sum, { animals }) => sum + animals, 0),
    batches: productsOf(session.losses.lots).reduce((sum, { n }) => sum + n, 0),
  };
}

/** Without the recipes. */
export function textOf({ losses, ...kept }: KeptLessons): LessonText {
  return { ...kept, losses: losses.map(({ kind, n, sum, squares }) => ({ kind, n, sum, squares })) };
}

function keptYield(now: YieldLesson, before: YieldLesson | undefined): YieldLesson {
  if (!before) return now;
  const splits = Object.fromEntries(
    Object.entries(now.splits).map(([split, sums]) => [split, keptSums(sums, before.splits[split as keyof YieldLesson['splits']])]),
  );
  const told = Math.abs(now.animals - before.animals) < LEAST_ANIMALS ? before : now;
  const { animals, sexes, ages, damages } = told;
  return { ...now, animals, sexes, ages, damages, splits };
} // prettier-ignore

function keptSums<S extends { readonly n: number }>(now: S, before: S | undefined): S {
  return before && Math.abs(now.n - before.n) < LEAST_ANIMALS ? before : now;
}

function keptFat(now: FatLesson | null, before: FatLesson | null): FatLesson | null {
  if (!now || !before) return now;
  const tested = ({ animals }: FatLesson): number => animals.reduce((sum, one) => sum + one, 0);
  return Math.abs(tested(now) - tested(before)) < LEAST_ANIMALS ? before : now;
}

function productsOf(lots: readonly LossBatch[]): KeptLessons['losses'] {
  const products = [...Map.groupBy(lots, ({ product, kind }) => `${product} ${kind}`).values()];
  return products.flatMap((batches) => {
    const [first] = batches;
    if (!first || batches.length < LEAST_BATCHES) return [];
    const ys = batches.map((batch, i) => yieldLogit(batch, `batches[${i}]`));
    return [
      {
        recipe: first.product,
        kind: first.kind,
        n: ys.length,
        sum: ys.reduce((total, y) => total + y, 0),
        squares: ys.reduce((total, y) => total + y * y, 0),
      },
    ];
  });
}

function fatOf(session: Session): FatLesson | null {
  const animals = new Map<string, Set<number>>();
  for (const { animal, lot, species } of session.book.testedGrinds.sources(0)) {
    if (animal === null || lot !== null || species === null || !KNOWN.has(species)) continue;
    animals.set(species, (animals.get(species) ?? new Set()).add(animal));
  }
  const kinds = [...animals]
    .filter(([, of]) => of.size >= LEAST_ANIMALS)
    .map(([species, of]) => ({
      species,
      animals: of.size,
      trimFat: session.species.of(species).trimFat,
    }));
  const { estimates } = ownFatState(session.book, session.species);
  return fatLessonFrom(kinds, estimates, kindKey);
}
