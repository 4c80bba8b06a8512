import * as v from 'valibot';
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import { parseMoney } from '../../core/values/money.ts';
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { askFar, USE_BY_AGO_DAYS, USE_BY_AHEAD_DAYS } from '../input/day-doubts.ts';
import { keepsOf } from './fat-keeps.ts';
import { by, id, needed, optionalDate, confirmedOf, text, typed } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { boughtFatSource } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { FatLotRow } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';

/**
 * Lots of bought and saved fat, oldest first. Empty lots are included only on request, or for a batch that used them.
 */
export const listLots = read(
  v.object({ usedUp: v.optional(v.boolean(), true), batchId: v.optional(id) }),
  (session, { usedUp, batchId }) =>
    (usedUp ? session.book.fat.all() : session.book.fat.withLeftOrIn(batchId ?? null)).map((lot) =>
      lotRow(session, lot),
    ),
);

/**
 * Adds a bought lot. Its fat content is the published one unless the supplier states another.
 * @throws ProblemError `fat.too-many` (refused); `date.long-ago`, `date.far-ahead` (conflict: pass `confirmed`)
 */
export const receive = write(
  v.object({
    source: needed(40),
    typed,
    fatPercent: v.optional(
      v.pipe(v.number('fat.range'), v.minValue(1, 'fat.range'), v.maxValue(100, 'fat.range')),
    ),
    costTyped: text(30),
    costUnit: v.optional(v.picklist(['lb', 'kg'], 'choice.unit')),
    supplier: text(120),
    supplierLot: text(80),
    useBy: optionalDate,
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    if (input.useBy)
      askFar(input.confirmed, 'useBy', input.useBy, session.today(), {
        ago: USE_BY_AGO_DAYS,
        ahead: USE_BY_AHEAD_DAYS,
      });
    const source = boughtFatSource(input.source);
    refuseMoreOfShop('fat', session.book.counts.boughtLots());
    const reading = parseLoads(input.typed, session.settings.unit);
    const cost = input.costTyped === '' ? null : parseMoney(input.costTyped, session.settings.currency);
    const lotId = session.book.fat.add({
      source: source.code,
      name: source.name,
      animalId: null,
      fat: input.fatPercent === undefined ? source.fat : input.fatPercent / 100,
      fatSd: source.sd,
      costMinor: cost,
      costUnit: cost === null ? null : (input.costUnit ?? session.settings.unit),
      supplier: input.supplier,
      supplierLot: input.supplierLot,
      useBy: input.useBy,
      receivedOn: session.today(),
      at: session.now(),
      by: input.by,
    });
    session.book.fat.move({
      lotId,
      kind: 'bought',
      grams: readingGrams(reading),
      typed: reading.typed,
      weighingId: null,
      at: session.now(),
      by: input.by,
    });
    return { id: lotId };
  },
);

export function lotRow(session: Session, lot: FatLotRecord): FatLotRow {
  return {
    id: lot.id,
    code: lot.code,
    source: lot.source,
    name: lot.name,
    ticket: lot.ticket,
    fat: lot.fat,
    costMinor: lot.cost_minor,
    costUnit: lot.cost_unit,
    supplierLot: lot.supplier_lot,
    useBy: lot.use_by,
    receivedOn: lot.received_on,
    startGrams: lot.start_grams,
    leftGrams: Math.max(0, lot.left_grams),
    keeps: keepsOf(session, lot),
  };
}
