/** The order in which to cut the hanging animals, with the reason for each. */
import { hangState } from './hanging.ts';
import { ValidationError } from '../values/validation-error.ts';

export type CutReason = 'over-limit' | 'promised' | 'due' | 'ready' | 'light' | 'oldest';

export interface AnimalToCut {
  readonly id: number;
  readonly days: number;
  /** Days until the promised date, negative when overdue; null without one. */
  readonly promisedInDays: number | null;
  /** Hanging weight, or null when unknown. */
  readonly grams: number | null;
  readonly held: boolean;
}

export interface CutRule {
  readonly readyDays: number;
  readonly limitDays: number;
  /** Whether the shop cuts animals on hold. */
  readonly cutWhileHeld: boolean;
}

export interface CutTurn {
  id: number;
  why: CutReason;
}

/** A promise within this many days is urgent: a day to cut, one to grind, one to freeze. Our choice. */
const PROMISED_SOON_DAYS = 3;

const GROUPS = ['over-limit', 'promised', 'due', 'ready', 'oldest'] as const;
type Placed = AnimalToCut & { group: (typeof GROUPS)[number] };

/**
 * All animals that may be cut, the next one first. The order is our own choice (common practice, no source):
 * animals over the shop's limit, most days over first; animals promised within three days, soonest first; animals
 * on their last day or the day before it, longest hung first; ready animals, longest hung first and at equal age
 * the lighter first, because a small carcass dries faster (`light` where that decided); the rest by age. Animals on
 * hold are left out unless the shop cuts them. Ties go to the lower id, so the result does not depend on the order
 * of the list.
 * @throws ValidationError `hanging.days`, `hanging.limits`, `number.not-finite`, `grams.not-positive`, `id.duplicate`
 * @example
 * cutOrder([{ id: 1, days: 5, promisedInDays: null, grams: 70_000, held: false },
 *           { id: 2, days: 8, promisedInDays: null, grams: 40_000, held: false }],
 *   { readyDays: 4, limitDays: 7, cutWhileHeld: false }) // [{ id: 2, why: 'over-limit' }, { id: 1, why: 'ready' }]
 */
export function cutOrder(animals: readonly AnimalToCut[], rule: CutRule): CutTurn[] {
  if (new Set(animals.map(({ id }) => id)).size !== animals.length)
    throw new ValidationError('id.duplicate', 'animals');
  const placed = animals.map((animal) => ({ ...animal, group: groupOf(animal, rule) }));
  const turns = placed.filter(({ held }) => !held || rule.cutWhileHeld).sort(byTurn);
  return turns.map((animal, at) => ({ id: animal.id, why: whyOf(animal, turns[at + 1]) }));
}

function groupOf({ days, promisedInDays, grams }: AnimalToCut, rule: CutRule): Placed['group'] {
  if (promisedInDays !== null && !Number.isInteger(promisedInDays))
    throw new ValidationError('number.not-finite', 'promisedInDays');
  if (grams !== null && !(grams > 0 && Number.isFinite(grams)))
    throw new ValidationError('grams.not-positive', 'grams');
  const state = hangState(days, rule);
  if (state === 'over') return 'over-limit';
  if (promisedInDays !== null && promisedInDays <= PROMISED_SOON_DAYS) return 'promised';
  return state === 'fresh' ? 'oldest' : state;
}

function byTurn(a: Placed, b: Placed): number {
  return (
    GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) ||
    (a.group === 'promised' ? (a.promisedInDays ?? 0) - (b.promisedInDays ?? 0) : 0) ||
    b.days - a.days ||
    compareGrams(a.grams, b.grams) ||
    a.id - b.id
  );
}

/** Lighter first, unweighed animals last. */
function compareGrams(a: number | null, b: number | null): number {
  if (a === b) return 0;
  if (a === null) return 1;
  return b === null ? -1 : a - b;
}

function whyOf(animal: Placed, next: Placed | undefined): CutReason {
  const decided =
    animal.group === 'ready' && next?.group === 'ready' && next.days === animal.days && animal.grams !== null;
  return decided && compareGrams(animal.grams, next.grams) < 0 ? 'light' : animal.group;
}
