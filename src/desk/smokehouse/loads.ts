/** Loads of the smokehouse: opened, filled, written down, judged and closed. */
import * as v from 'valibot';
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import { ProblemError } from '../contract/problem.ts';
import type { LoadRecord, LoadsView, Verdict } from '../contract/contract.ts';
import { by, id, listOf, needed, text } from '../input/input.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { coolingOption } from '../supplied/smokehouse.ts';
import { judgeLoad } from './judge.ts';
import { loadLine } from './load-line.ts';
import {
  bodiesOf,
  loadOf,
  loadRecord,
  openLoadOf,
  recordOf,
  stateOfLoad,
  usualRecord,
} from './load-record.ts';
import { madeOf, recipeOf, sumsOf } from './made-batch.ts';
import { madeLine } from './made-line.ts';
import { refuseHeldMeat } from './meat.ts';
import { basisOf, decisionOf } from './proof.ts';

const RECENT = 40;
const NEWEST = 300;
/** More than a smokehouse holds. */
const MAX_BATCHES = 30;

/** Open loads, the newest closed ones, and stuffed batches that want heat. */
export const list = readAfterLearning(v.object({}), (session): LoadsView => {
  const open = session.book.loads.open();
  const isWaiting = (made: MadeRow): boolean => {
    const { stuffed, packed } = sumsOf(session, made.id);
    const { body } = recipeOf(session, made);
    return stuffed !== null && packed === null && body.finish !== 'raw' && wantsLoad(session, made.id);
  };
  return {
    open: open.map((load) => loadLine(session, load)),
    recent: session.book.loads
      .newest(RECENT + open.length)
      .filter((load) => stateOfLoad(session, load.id) === 'closed')
      .map((load) => loadLine(session, load)),
    waiting: session.book.made
      .newest(NEWEST)
      .filter(isWaiting)
      .map((made) => madeLine(session, made)),
    ovens: session.book.loads.ovens(),
  };
});

/**
 * Opens a load with what its recipes say of the cook.
 * @throws ProblemError as `loads.add`
 */
export const open = write(
  v.object({ oven: text(60), madeIds: listOf(id, MAX_BATCHES), by }),
  (session, { oven, madeIds, by: initials }) => {
    const at = session.now();
    const record = usualRecord(bodiesOf(session, madeIds));
    const load = session.book.loads.add({ season: session.season(), oven, at, by: initials });
    addRecord(session, load.id, record, initials);
    for (const madeId of madeIds) addBatch(session, load.id, madeId, initials);
    return load;
  },
);

/**
 * Adds a stuffed batch to an open load.
 * @throws ProblemError `load.unknown`, `load.closed`, `load.full`, `load.raw`, `load.elsewhere`, `made.not-stuffed`, `made.held` (refused)
 */
export const add = write(v.object({ id, madeId: id, by }), (session, input) => {
  openLoadOf(session, input.id);
  return { id: addBatch(session, input.id, input.madeId, input.by) };
});

/** Takes a batch out of an open load. @throws ProblemError `load.batch-unknown`, `load.closed` */
export const remove = write(v.object({ id, loadBatchId: id, reason: needed(300), by }), (session, input) => {
  openLoadOf(session, input.id);
  const known = session.book.loads.batches(input.id).some((one) => one.id === input.loadBatchId);
  if (!known) throw new ProblemError('missing', 'load.batch-unknown', { field: 'loadBatchId' });
  session.book.loads.voidBatch(input.loadBatchId, input.reason, session.now(), input.by);
  return { id: input.loadBatchId };
});

/**
 * Writes down the cook: oven, humidity, thermometer, figures to meet.
 * @throws ProblemError `load.closed`, `cooling.unknown`, `cook.reversed` (invalid)
 */
export const record = write(v.object({ id, record: loadRecord, by }), (session, input) => {
  openLoadOf(session, input.id);
  const { ovenStart, ovenEnd, cooling } = input.record;
  coolingOption(cooling);
  if (ovenStart !== null && ovenEnd !== null && ovenEnd <= ovenStart)
    throw new ProblemError('invalid', 'cook.reversed', { field: 'record.ovenEnd' });
  return { id: addRecord(session, input.id, input.record, input.by) };
});

/** Nothing more is added to a closed load. @throws ProblemError `load.unknown`, `load.closed` */
export const close = write(v.object({ id, by }), (session, input) => {
  openLoadOf(session, input.id);
  addRecord(session, input.id, recordOf(session, input.id), input.by, 'closed');
  return { id: input.id };
});

/** @throws ProblemError `load.unknown`, `load.open` (refused) */
export const reopen = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const load = loadOf(session, input.id);
  if (stateOfLoad(session, load.id) === 'open')
    throw new ProblemError('refused', 'load.open', { with: { load: load.name } });
  addRecord(session, load.id, recordOf(session, load.id), input.by, 'open', input.reason);
  return { id: load.id };
});

/**
 * Stores what the logs say now. Labels go by it until anything of the load changes.
 * @throws ProblemError `load.unknown`
 */
export const judge = write(v.object({ id, by }), (session, input): Verdict => {
  const load = loadOf(session, input.id);
  const { verdict } = judgeLoad(session, load.id);
  session.book.loads.addVerdict({
    loadId: load.id,
    cook: verdict.cook.answer,
    cooling: verdict.cooling.answer,
    basis: basisOf(session, load.id),
    body: JSON.stringify({ verdict, record: recordOf(session, load.id) }),
    at: session.now(),
    by: input.by,
  });
  return verdict;
});

const DECISIONS = ['hold', 'cook again', 'not ready to eat', 'discard', 'authority'] as const;
/** More than is ever decided of one. */
const MAX_DECISIONS = 100;

/**
 * What was decided of a load or a batch that is not proven. It proves nothing itself.
 * @throws ProblemError `decision.of-one` (invalid: a load or a batch, not both), `made.too-many` (refused)
 */
export const decide = write(
  v.object({
    loadId: v.optional(v.nullable(id), null),
    madeId: v.optional(v.nullable(id), null),
    decided: v.picklist(DECISIONS, 'choice.smokehouse'),
    decidedBy: needed(80),
    note: needed(1000),
    by,
  }),
  (session, { by: initials, ...input }) => {
    if ((input.loadId === null) === (input.madeId === null))
      throw new ProblemError('invalid', 'decision.of-one', { field: 'loadId' });
    const before =
      input.loadId === null
        ? session.book.loadLogs.decidedOfMade(madeOf(session, input.madeId ?? 0).id)
        : session.book.loadLogs.decidedOfLoad(loadOf(session, input.loadId).id);
    if (before.length >= MAX_DECISIONS)
      throw new ProblemError('refused', 'made.too-many', { with: { count: MAX_DECISIONS } });
    return { id: session.book.loadLogs.decide({ ...input, at: session.now(), by: initials }) };
  },
);

/** @throws ProblemError `made.weight-unknown`, `made.weight-voided` */
export const voidDecision = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const row = session.book.loadLogs.deviation(input.id);
  if (!row) throw new ProblemError('missing', 'made.weight-unknown', { field: 'id' });
  if (decisionOf(row).voided !== null) throw new ProblemError('conflict', 'made.weight-voided');
  session.book.loadLogs.voidDeviation(row.id, input.reason, session.now(), input.by);
  return { id: row.id };
});

function addRecord(
  session: Session,
  loadId: number,
  body: LoadRecord,
  initials: string,
  state: 'open' | 'closed' = 'open',
  reason = '',
): number {
  const at = session.now();
  return session.book.loads.addRecord({
    loadId,
    state,
    body: JSON.stringify(body),
    reason,
    at,
    by: initials,
  });
}

function addBatch(session: Session, loadId: number, madeId: number, initials: string): number {
  const made = madeOf(session, madeId);
  if (session.book.loads.batches(loadId).length >= MAX_BATCHES)
    throw new ProblemError('refused', 'load.full', { with: { count: MAX_BATCHES } });
  if (recipeOf(session, made).body.finish === 'raw')
    throw new ProblemError('refused', 'load.raw', { with: { name: made.name } });
  if (sumsOf(session, made.id).stuffed === null)
    throw new ProblemError('refused', 'made.not-stuffed', { with: { name: made.name } });
  const elsewhere = session.book.loads
    .loadsOf(madeId)
    .find((load) => load.id === loadId || stateOfLoad(session, load.id) === 'open');
  if (elsewhere)
    throw new ProblemError('refused', 'load.elsewhere', {
      with: { name: made.name, load: elsewhere.name },
    });
  refuseHeldMeat(session, made.batch_id);
  return session.book.loads.addBatch({ loadId, madeId, at: session.now(), by: initials });
}

/** In no load yet, or in none that is open and to be cooked again. */
function wantsLoad(session: Session, madeId: number): boolean {
  const loads = session.book.loads.loadsOf(madeId);
  const last = loads.at(-1);
  if (!last) return true;
  if (loads.some((load) => stateOfLoad(session, load.id) === 'open')) return false;
  return session.book.loadLogs
    .decidedOfLoad(last.id)
    .some(({ decided, void_reason: voided }) => decided === 'cook again' && voided === null);
}
