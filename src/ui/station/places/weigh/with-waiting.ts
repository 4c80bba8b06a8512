/** The animal as it will be once the station's own entries have arrived, so that the next weight is right without the desk. Pure. */
import type { AnimalPage, CallInput, WeighingRow } from '../../../../bridge/contract.ts';
import { readingGrams } from '../../../../core/values/reading.ts';
import { loadsIn } from '../../../parts/index.ts';

/** A weight of this station that the desk has not saved yet. */
export interface WaitingWeight {
  input: CallInput<'table.weigh'>;
  /** The station's moment when it was typed. */
  at: string;
}

/**
 * The page with the waiting weights as rows of their own; their ids are negative. Its sums and balance stay the desk's.
 * @param unit of a bare number
 */
export function withWaiting(
  page: AnimalPage,
  waiting: readonly WaitingWeight[],
  unit: 'lb' | 'kg',
): AnimalPage {
  const rows = waiting.map((one, at) => rowOf(one, -1 - at, unit));
  return { ...page, weighings: [...page.weighings, ...rows] };
}

function rowOf({ input, at }: WaitingWeight, id: number, unit: 'lb' | 'kg'): WeighingRow {
  const reading = loadsIn(input.typed, unit);
  const tare = input.tareTyped ? loadsIn(input.tareTyped, unit) : null;
  return {
    id,
    at,
    stage: input.stage,
    part: input.part,
    primal: input.primal ?? null,
    product: input.product ?? null,
    count: input.count ?? null,
    typed: input.typed,
    unit: reading?.unit ?? unit,
    tareTyped: input.tareTyped || null,
    tareUnit: tare?.unit ?? null,
    grams: (reading ? readingGrams(reading) : 0) - (tare ? readingGrams(tare) : 0),
    by: '',
    note: '',
    source: input.source ?? 'typed',
    place: input.place || null,
    batch: null,
    corrects: null,
    voided: null,
  };
}
