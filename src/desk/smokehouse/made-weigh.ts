/** Weights of a made batch: ingredients, stuffed, out of the smokehouse, packed; and figures that were measured. */
import * as v from 'valibot';
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { openBatchOf } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, confirmed, id, needed, text, typed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { count, freezerPlace, source } from '../weighing/table.ts';
import { weighBatch } from '../weighing/weigh.ts';
import { madeOf, recipeOf, startedOf, sumsOf } from './made-batch.ts';
import { meatChanged, refuseHeldMeat } from './meat.ts';
import { ofWeighed, unweighedCures, weighedGrams } from './weighed.ts';

/** More than is ever weighed of one batch, voided weights too. */
const MAX_WEIGHTS = 500;
/** Two scales agree within it. Common practice, no source. */
const AS_WEIGHED = 1.02;
/** More than asked for by so much is likely a mistyped weight. Our choice. */
const UNLIKE = 1.1;

/**
 * Weighs an ingredient into a batch, a bare number in grams.
 * @throws ProblemError `batch.done`, `made.not-started`, `made.not-asked`, `made.stuffed`, `made.too-many` (refused), `made.lot-needed`
 *   (invalid: of a cure), a limit's code such as `cure.above-limit` (refused: take out what is too much and weigh again), `made.unlike` (conflict: pass
 *   `confirmed`); ValidationError `reading.*`
 */
export const weigh = write(
  v.object({ id, ingredientId: id, typed, lot: text(60), source, confirmed, by }),
  (session, input) => {
    const made = madeOf(session, input.id);
    const started = startedOf(session, made);
    openBatchOf(session, made.batch_id);
    refuseStuffed(session, made);
    const asked = started.sheet.amounts.find(({ ingredientId }) => ingredientId === input.ingredientId);
    if (!asked) throw new ProblemError('refused', 'made.not-asked', { field: 'ingredientId' });
    const rows = session.book.madeWeights.weighed(made.id);
    if (rows.length >= MAX_WEIGHTS)
      throw new ProblemError('refused', 'made.too-many', { with: { count: MAX_WEIGHTS } });
    const reading = parseLoads(input.typed, 'g');
    const grams = readingGrams(reading);
    const sums = weighedGrams(rows);
    const of = String(input.ingredientId);
    const total = (sums.get(of) ?? 0) + grams;
    if (started.cards.some(({ id: one, cure }) => one === input.ingredientId && cure)) {
      if (input.lot === '')
        throw new ProblemError('invalid', 'made.lot-needed', { field: 'lot', with: { name: asked.name } });
      const found = ofWeighed(started, new Map([...sums, [of, total]]));
      const stop = found.findings.find(({ weight }) => weight === 'stop');
      if (stop) throw new ProblemError('refused', stop.code, { field: 'typed', with: stop.with });
    }
    if (total > asked.grams * UNLIKE + 2 * asked.stepGrams && !input.confirmed)
      throw new ProblemError('conflict', 'made.unlike', {
        field: 'typed',
        with: { grams: total, asked: asked.grams, name: asked.name },
      });
    const weighedId = session.book.madeWeights.addWeighed({
      madeId: made.id,
      ingredientId: input.ingredientId,
      ...read(reading),
      lot: input.lot,
      source: input.source,
      at: session.now(),
      by: input.by,
    });
    return { id: weighedId, grams };
  },
);

/** @throws ProblemError `made.weight-unknown`, `made.weight-voided`, `batch.done`, `made.stuffed` */
export const voidWeighed = write(v.object({ weighedId: id, reason: needed(300), by }), (session, input) => {
  const row = session.book.madeWeights.oneWeighed(input.weighedId);
  if (!row) throw new ProblemError('missing', 'made.weight-unknown', { field: 'weighedId' });
  if (row.void_reason !== null) throw new ProblemError('conflict', 'made.weight-voided');
  const made = madeOf(session, row.made_id);
  // What went into a finished grind is what its packages are held against.
  openBatchOf(session, made.batch_id);
  refuseStuffed(session, made);
  session.book.madeWeights.voidWeighed(row.id, input.reason, session.now(), input.by);
  return { id: row.id };
});

/**
 * Weighs what was stuffed, or what came out of the smokehouse.
 * @throws ProblemError `made.not-started`, `made.meat-changed`, `made.cure-not-weighed`, `made.not-stuffed`, `made.more-out`,
 *   `made.too-many` (refused), `made.held`; ValidationError `reading.*`
 */
export const stage = write(
  v.object({
    id,
    stage: v.picklist(['stuffed', 'cooked'], 'choice.smokehouse'),
    typed,
    pieces: v.optional(v.nullable(count), null),
    source,
    by,
  }),
  (session, input) => {
    const made = madeOf(session, input.id);
    const started = startedOf(session, made);
    const reading = parseLoads(input.typed, session.settings.unit);
    const grams = readingGrams(reading);
    const sums = sumsOf(session, made.id);
    const rows = session.book.madeWeights.weighed(made.id);
    if (session.book.madeWeights.stages(made.id).length >= MAX_WEIGHTS)
      throw new ProblemError('refused', 'made.too-many', { with: { count: MAX_WEIGHTS } });
    if (input.stage === 'stuffed') {
      refuseHeldMeat(session, made.batch_id);
      if (meatChanged(session, made, started.row))
        throw new ProblemError('refused', 'made.meat-changed', { with: { name: made.name } });
      const [cure] = unweighedCures(started, rows);
      if (cure !== undefined)
        throw new ProblemError('refused', 'made.cure-not-weighed', { with: { name: cure } });
      refuseMore(made, (sums.stuffed ?? 0) + grams, started.row.grams + sums.added);
    } else {
      if (sums.stuffed === null)
        throw new ProblemError('refused', 'made.not-stuffed', { with: { name: made.name } });
      refuseMore(made, (sums.cooked ?? 0) + grams, sums.stuffed);
    }
    const added = session.book.madeWeights.addStage({
      madeId: made.id,
      stage: input.stage,
      pieces: input.pieces,
      ...read(reading),
      source: input.source,
      at: session.now(),
      by: input.by,
    });
    return { id: added, grams };
  },
);

/** @throws ProblemError `made.weight-unknown`, `made.weight-voided`, `made.more-out` (refused: more came out since) */
export const voidStage = write(v.object({ stageId: id, reason: needed(300), by }), (session, input) => {
  const row = session.book.madeWeights.oneStage(input.stageId);
  if (!row) throw new ProblemError('missing', 'made.weight-unknown', { field: 'stageId' });
  if (row.void_reason !== null) throw new ProblemError('conflict', 'made.weight-voided');
  const made = madeOf(session, row.made_id);
  session.book.madeWeights.voidStage(row.id, input.reason, session.now(), input.by);
  const { stuffed, cooked, packed } = sumsOf(session, made.id);
  if (row.stage === 'stuffed') refuseMore(made, Math.max(cooked ?? 0, packed ?? 0), stuffed ?? 0);
  return { id: row.id };
});

/**
 * Weighs packages of the product. They are packages of its grind: owners, labels and pickup go on from there.
 * @throws ProblemError `made.not-started`, `made.not-stuffed`, `made.more-out` (refused), and as `grinder.pack`
 */
export const pack = write(
  v.object({
    id,
    count,
    typed,
    tareTyped: text(60),
    source,
    place: freezerPlace,
    /** Why more comes out of the grind than went in. */
    reason: text(300),
    confirmed,
    by,
  }),
  (session, { id: of, reason, ...input }) => {
    const made = madeOf(session, of);
    const started = startedOf(session, made);
    openBatchOf(session, made.batch_id);
    const { product, body } = recipeOf(session, made);
    const weighed = weighBatch(session, {
      ...input,
      reason,
      batchId: made.batch_id,
      animalId: null,
      fatLotId: null,
      part: 'package',
      stage: 'packed',
      product,
      note: reason,
    });
    session.book.madeWeights.addPackage({
      weighingId: weighed.weighingId,
      madeId: made.id,
      at: session.now(),
      by: input.by,
    });
    const { stuffed, packed, added } = sumsOf(session, made.id);
    if (stuffed === null && body.finish !== 'raw')
      throw new ProblemError('refused', 'made.not-stuffed', { with: { name: made.name } });
    refuseMore(made, packed ?? 0, stuffed ?? started.row.grams + added);
    return weighed;
  },
);

const ANALYSES = ['moisture', 'protein', 'fat', 'salt', 'water activity', 'ph'] as const;

/**
 * A figure from a laboratory or a meter: moisture, protein, fat and salt in percent, water activity from 0 to 1, pH.
 * @throws ProblemError `analysis.range` (invalid), `made.too-many` (refused)
 */
export const analyse = write(
  v.object({ id, what: v.picklist(ANALYSES, 'choice.smokehouse'), typed: needed(20), method: text(80), by }),
  (session, input) => {
    const made = madeOf(session, input.id);
    if (session.book.made.analyses(made.id).length >= MAX_WEIGHTS)
      throw new ProblemError('refused', 'made.too-many', { with: { count: MAX_WEIGHTS } });
    const number = /^(\d{1,3}(?:[.,]\d{1,4})?) ?%?$/.exec(input.typed)?.[1]?.replace(',', '.');
    const most = input.what === 'water activity' ? 1 : input.what === 'ph' ? 14 : 100;
    const value = Number(number ?? NaN);
    if (!(value >= 0 && value <= most))
      throw new ProblemError('invalid', 'analysis.range', { field: 'typed', with: { most } });
    const added = session.book.made.addAnalysis({
      madeId: made.id,
      what: input.what,
      typed: input.typed,
      value: most === 100 ? value / 100 : value,
      method: input.method,
      at: session.now(),
      by: input.by,
    });
    return { id: added };
  },
);

/** @throws ProblemError `made.weight-unknown` (unknown or voided before) */
export const voidAnalysis = write(v.object({ analysisId: id, reason: needed(300), by }), (session, input) => {
  const of = session.book.made.madeOfAnalysis(input.analysisId);
  if (of === undefined) throw new ProblemError('missing', 'made.weight-unknown', { field: 'analysisId' });
  madeOf(session, of);
  session.book.made.voidAnalysis(input.analysisId, input.reason, session.now(), input.by);
  return { id: input.analysisId };
});

const read = ({ typed: text_, digits, decimals, unit, ...rest }: ReturnType<typeof parseLoads>) => ({
  typed: text_,
  digits,
  decimals,
  unit,
  grams: readingGrams({ digits, decimals, unit, ...rest }),
});

function refuseStuffed(session: Session, made: MadeRow): void {
  if (sumsOf(session, made.id).stuffed !== null)
    throw new ProblemError('refused', 'made.stuffed', { with: { name: made.name } });
}

/** @throws ProblemError `made.more-out` */
function refuseMore({ name }: MadeRow, outGrams: number, inGrams: number): void {
  if (outGrams > inGrams * AS_WEIGHED)
    throw new ProblemError('refused', 'made.more-out', { field: 'typed', with: { name, outGrams, inGrams } });
}
