import type { WeighingRecord } from '../../book/records/weighings.ts';
import type { WeighingRow } from '../contract/contract.ts';

/** A weighing as windows show it. */
export function weighingRow(row: WeighingRecord): WeighingRow {
  return {
    id: row.id,
    stage: row.stage,
    part: row.part,
    primal: row.primal,
    product: row.product,
    count: row.count,
    typed: row.typed,
    unit: row.unit,
    tareTyped: row.tare_typed,
    tareUnit: row.tare_unit,
    grams: row.grams,
    at: row.at,
    by: row.by,
    note: row.note,
    source: row.source,
    place: row.place,
    batch: row.batch,
    corrects: row.corrects,
    voided:
      row.void_at === null ? null : { reason: row.void_reason ?? '', by: row.void_by ?? '', at: row.void_at },
  };
}
