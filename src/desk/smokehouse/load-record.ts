/** What is written down of a cook, and rules of a load. */
import * as v from 'valibot';
import type { LoadRow } from '../../book/records/smokehouse/loads.ts';
import { ProblemError } from '../contract/problem.ts';
import type { LoadRecord, RecipeBody } from '../contract/contract.ts';
import { needed, text } from '../input/input.ts';
import type { Session } from '../session/session.ts';
import { madeOf, recipeOf } from './made-batch.ts';
import { degreesF, minutes } from '../recipes/recipe-input.ts';

/** Off by so much either way where nobody said: the guideline's own example, page 20. */
const USUAL_ACCURACY_F = 1;
/** Heavier than any piece, g. */
const MAX_PIECE = 100_000;

const moment = v.nullable(
  v.pipe(
    v.string('load.moment'),
    v.maxLength(30, 'load.moment'),
    v.check((one) => !Number.isNaN(Date.parse(one)), 'load.moment'),
    v.transform((one) => new Date(one).toISOString()),
  ),
);

export const loadRecord = v.object({
  level: v.picklist(['log65', 'log7', 'log5'], 'choice.smokehouse'),
  hasSupport: v.boolean('choice.smokehouse'),
  poultry: v.boolean('choice.smokehouse'),
  humidity: v.nullable(
    v.union(
      [
        v.object({
          kind: v.literal('exempt'),
          why: v.picklist(['immersed', 'sealed-bag', 'casing', 'direct-heat'], 'choice.smokehouse'),
        }),
        v.object({
          kind: v.literal('large-piece'),
          pieceGrams: v.pipe(
            v.number('reading.empty'),
            v.minValue(1, 'reading.zero'),
            v.maxValue(MAX_PIECE, 'reading.too-heavy'),
          ),
          ovenF: degreesF,
        }),
        v.object({
          kind: v.picklist(['steam', 'sealed-oven', 'humid-part', 'humid-all'], 'choice.smokehouse'),
          minutes,
        }),
      ],
      'choice.smokehouse',
    ),
  ),
  ovenStart: moment,
  ovenEnd: moment,
  accuracyF: v.pipe(
    v.number('load.accuracy'),
    v.minValue(0, 'load.accuracy'),
    v.maxValue(10, 'load.accuracy'),
  ),
  cooling: needed(40),
  note: text(500),
});

/** @throws ProblemError `load.unknown` */
export function loadOf(session: Session, id: number): LoadRow {
  const found = session.book.loads.get(id);
  if (!found) throw new ProblemError('missing', 'load.unknown', { field: 'id' });
  return found;
}

/** @throws ProblemError `load.unknown`, `load.closed` (refused) */
export function openLoadOf(session: Session, id: number): LoadRow {
  const load = loadOf(session, id);
  if (stateOfLoad(session, id) === 'closed')
    throw new ProblemError('refused', 'load.closed', { with: { load: load.name } });
  return load;
}

export const stateOfLoad = (session: Session, id: number): 'open' | 'closed' =>
  session.book.loads.record(id)?.state ?? 'open';

/** Recipes of the batches in a load. */
export function bodiesIn(session: Session, loadId: number): RecipeBody[] {
  return session.book.loads.batches(loadId).flatMap(({ made_id: of }) => {
    const made = session.book.made.get(of);
    return made && made.void_at === null ? [recipeOf(session, made).body] : [];
  });
}

/** What counts for a load: as written down, else as its recipes have it. */
export function recordOf(session: Session, loadId: number): LoadRecord {
  const kept = session.book.loads.record(loadId);
  if (kept) return JSON.parse(kept.body) as LoadRecord;
  return usualRecord(bodiesIn(session, loadId));
}

/** For recipes of batches that go in together: the strictest level, casings where all have one. */
export function usualRecord(bodies: readonly RecipeBody[]): LoadRecord {
  const levels = bodies.flatMap(({ heat }) => heat?.level ?? []);
  const level = levels.includes('log7')
    ? 'log7'
    : levels.includes('log65')
      ? 'log65'
      : (levels[0] ?? 'log65');
  return {
    level,
    hasSupport: false,
    poultry: false,
    humidity:
      bodies.length > 0 && bodies.every(({ casing }) => casing !== null)
        ? { kind: 'exempt', why: 'casing' }
        : null,
    ovenStart: null,
    ovenEnd: null,
    accuracyF: USUAL_ACCURACY_F,
    cooling: bodies.find(({ heat }) => heat?.cooling)?.heat?.cooling ?? 'option-1',
    note: '',
  };
}

/** Recipes of batches by id. @throws ProblemError `made.unknown`, `made.voided` */
export const bodiesOf = (session: Session, madeIds: readonly number[]): RecipeBody[] =>
  madeIds.map((of) => recipeOf(session, madeOf(session, of)).body);
