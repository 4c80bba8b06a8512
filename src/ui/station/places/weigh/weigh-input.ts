/** What the table's entry sends to the desk, and what is wrong with it before it is sent. Pure. */
import type { CallInput, Problem } from '../../../../bridge/contract.ts';
import { parseLoads } from '../../../../core/values/loads.ts';
import { ValidationError } from '../../../../core/values/validation-error.ts';
import type { Entry, EntryStage } from '../../../weighing/entry.ts';

const PART_AT = {
  packed: 'package',
  primal: 'primal',
  received: 'carcass',
  hanging: 'carcass',
} as const satisfies Partial<Record<EntryStage, string>>;

/** The input of `table.weigh`. @param count packages, as typed or estimated @param source who read the weight */
export function weighInput(
  { stage, part, primal, typed, tare, product, place }: Entry,
  animalId: number,
  count: string,
  source: NonNullable<CallInput<'table.weigh'>['source']>,
): CallInput<'table.weigh'> {
  return {
    animalId,
    stage,
    part: stage === 'cut' ? part : PART_AT[stage],
    typed,
    tareTyped: tare,
    source,
    confirmed: false,
    ...(stage === 'cut' || stage === 'primal' ? { primal: primal || null } : {}),
    ...(stage === 'packed' ? { product, place, count: Number(count) || null } : {}),
  };
}

/**
 * The problem of a weight that nobody could read, so that it is told while the meat is on the scale, also without the
 * desk; null for a weight that the desk may judge.
 */
export function unreadable(typed: string, unit: 'lb' | 'kg'): Problem | null {
  try {
    parseLoads(typed, unit);
    return null;
  } catch (error) {
    if (!(error instanceof ValidationError)) throw error;
    const { code, field, with: told } = error;
    return { kind: 'invalid', code, with: told, ...(field === undefined ? {} : { field }) };
  }
}
