/**
 * What a shop has learned, as a text that others can take in: sums without any customer's data and without the shop's name. The
 * text never changes once it is written; a program that knows a later version of it says so.
 */
import * as v from 'valibot';
import type { FatLesson } from '../../core/fat/siblings.ts';
import type { LossLesson } from '../../core/loss/siblings.ts';
import { invert, zeros } from '../../core/stats/positive-definite.ts';
import { DAMAGES, LEAST_ANIMALS, SPLITS, type YieldLesson } from '../../core/yield/yield.ts';
import { AGES, BROUGHT, SEXES } from '../../trade/animal.ts';
import { ProblemError } from '../contract/problem.ts';

const FORMAT = 'gambrel.lessons';
const VERSION = 1;
/** Ten times what a shop with every species writes. */
export const MAX_LESSON_TEXT = 250_000;
/** Fewest batches of a product that is told of: as for animals, none is to be solved for. */
export const LEAST_BATCHES = LEAST_ANIMALS;

export interface Lessons {
  readonly yields: readonly YieldLesson[];
  readonly fat: FatLesson | null;
  readonly losses: readonly LossLesson[];
}

/** A text's content. */
export interface LessonText extends Lessons {
  /** A random mark: two texts of one shop have the same. */
  readonly source: string;
  /** The day it was written. */
  readonly made: string;
  /** Animals and cooked or dried batches that it rests on. */
  readonly animals: number;
  readonly batches: number;
}

/** More animals than any shop cuts in its life. */
const MOST = 1_000_000;
/** The logit of a share has this size at most (`logit` of `core/yield/tree.ts`). */
const MOST_LOGIT = 8;
const finite = v.pipe(v.number(), v.finite());
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(MOST));
const code = v.pipe(v.string(), v.regex(/^[a-z0-9-]{1,60}$/));
const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));

/** Sums that some numbers may have: their mean within bounds, and their squares not below what the mean needs. */
const sumsOf = (least: number) => ({
  n: v.pipe(count, v.minValue(least)),
  sum: finite,
  squares: finite,
});
const couldBe = ({ n, sum, squares }: { n: number; sum: number; squares: number }): boolean =>
  Math.abs(sum) <= MOST_LOGIT * n && squares <= MOST_LOGIT ** 2 * n && squares * (1 + 1e-6) >= sum ** 2 / n;

/** Rounded shares of the levels that occur. */
const sharesOf = <const L extends readonly string[]>(levels: L) =>
  v.pipe(
    v.record(v.picklist(levels), share),
    v.check((shares) => Object.values<number>(shares).reduce((sum, one) => sum + one, 0) <= 1.5),
  );

const split = v.pipe(
  v.object(sumsOf(LEAST_ANIMALS)),
  v.check((sums) => couldBe(sums)),
);
const yieldLesson = v.object({
  species: code,
  brought: v.picklist(BROUGHT),
  animals: v.pipe(count, v.minValue(LEAST_ANIMALS)),
  sexes: sharesOf(SEXES),
  ages: sharesOf(AGES),
  damages: sharesOf(DAMAGES),
  splits: v.record(v.picklist(SPLITS), split),
});

const MOST_KINDS = 100;
const fatLesson = v.pipe(
  v.object({
    species: v.pipe(v.array(code), v.minLength(1), v.maxLength(MOST_KINDS)),
    animals: v.pipe(v.array(v.pipe(count, v.minValue(LEAST_ANIMALS))), v.maxLength(MOST_KINDS)),
    information: v.pipe(v.array(v.pipe(v.array(finite), v.maxLength(MOST_KINDS))), v.maxLength(MOST_KINDS)),
    moments: v.pipe(v.array(finite), v.maxLength(MOST_KINDS)),
  }),
  v.check((lesson) => isInformation(lesson)),
);

const schema = v.object({
  format: v.literal(FORMAT),
  version: v.literal(VERSION),
  source: v.pipe(v.string(), v.regex(/^[0-9a-f-]{16,40}$/)),
  made: v.pipe(v.string(), v.isoDate()),
  animals: count,
  batches: count,
  yields: v.pipe(
    v.array(yieldLesson),
    v.maxLength(MOST_KINDS * BROUGHT.length),
    v.check((all) => new Set(all.map(({ species, brought }) => `${species}/${brought}`)).size === all.length),
  ),
  fat: v.nullable(fatLesson),
  losses: v.pipe(
    v.array(
      v.pipe(
        v.object({ kind: code, ...sumsOf(LEAST_BATCHES) }),
        v.check((sums) => couldBe(sums)),
      ),
    ),
    v.maxLength(300),
  ),
});

/** The text for others. */
export function lessonText(content: LessonText): string {
  const { source, made, animals, batches, yields, fat, losses } = content;
  return `${JSON.stringify({ format: FORMAT, version: VERSION, source, made, animals, batches, yields, fat, losses }, null, 1)}\n`;
}

/**
 * Reads a text of another shop. Nothing in it is trusted: every number is checked against what sums can be.
 * @throws ProblemError `lessons.too-large`, `lessons.not-lessons`, `lessons.newer`, `lessons.wrong` (invalid)
 */
export function readLessonText(text: string): LessonText {
  if (text.length > MAX_LESSON_TEXT)
    throw new ProblemError('invalid', 'lessons.too-large', { field: 'text' });
  const content = parsed(text);
  if (!v.is(v.looseObject({ format: v.literal(FORMAT), version: v.number() }), content))
    throw new ProblemError('invalid', 'lessons.not-lessons', { field: 'text' });
  if ((content as { version: number }).version > VERSION)
    throw new ProblemError('invalid', 'lessons.newer', { field: 'text' });
  const read = v.safeParse(schema, content);
  if (!read.success) throw new ProblemError('invalid', 'lessons.wrong', { field: 'text' });
  return read.output as LessonText;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/** Whether a matrix can be the information of tests, and the moments those of fat between none and all. */
function isInformation({ species, animals, information, moments }: FatLesson): boolean {
  const size = species.length;
  if (new Set(species).size !== size || animals.length !== size || moments.length !== size) return false;
  if (information.length !== size || information.some((row) => row.length !== size)) return false;
  const at = (i: number, j: number): number => information[i]?.[j] ?? 0;
  const most = Math.max(...species.map((_, i) => at(i, i)));
  if (!(most > 0 && most < 1e12)) return false;
  const matrix = zeros(size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) {
      if (Math.abs(at(i, j) - at(j, i)) > 1e-6 * most) return false;
      // Rounding may leave an eigenvalue of 0 a hair below it.
      matrix.values[i * size + j] = at(i, j) + (i === j ? 1e-6 * most : 0);
    }
  if (!Number.isFinite(invert(matrix).logDeterminant)) return false;
  return moments.every(
    (moment, i) => Math.abs(moment) <= 2 * (information[i] ?? []).reduce((sum, h) => sum + Math.abs(h), 1e-6 * most),
  );
} // prettier-ignore
