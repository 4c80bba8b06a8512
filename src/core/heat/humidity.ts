/** The humidity that the time-temperature table stands with, as recorded beside the log. */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import type { HumidityOption, TimeTable } from './figures.ts';
import type { HeatFinding } from './verdict.ts';

/** Kinds of product and cooking for which humidity need not be shown. */
export type HumidityExemption = 'immersed' | 'sealed-bag' | 'casing' | 'direct-heat';

export type HumidityRecord =
  | { readonly kind: 'exempt'; readonly why: HumidityExemption }
  | { readonly kind: 'large-piece'; readonly pieceGrams: number; readonly ovenF: number }
  | { readonly kind: HumidityOption['code']; readonly minutes: number };

export interface HumidityAnswer {
  readonly notMet: readonly HeatFinding[];
  readonly missing: readonly HeatFinding[];
  /** The least temperature of a row that counts under this option, or null. */
  readonly leastF: number | null;
}

/**
 * @param record null where nothing was recorded
 * @param cookMinutes how long the oven was on, null where that was not recorded
 * @throws ValidationError `number.not-finite`, `minutes.negative`
 */
export function checkHumidity(
  record: HumidityRecord | null,
  cookMinutes: number | null,
  { humidity, largePiece }: Pick<TimeTable, 'humidity' | 'largePiece'>,
): HumidityAnswer {
  const answer = (change: Partial<HumidityAnswer>): HumidityAnswer => ({
    notMet: [],
    missing: [],
    leastF: null,
    ...change,
  });
  if (record === null) return answer({ missing: [{ code: 'humidity.record', with: {} }] });
  if (record.kind === 'exempt') return answer({});
  if (record.kind === 'large-piece') {
    const { pieceGrams, ovenF } = record;
    requireFinite(pieceGrams, 'pieceGrams');
    requireFinite(ovenF, 'ovenF');
    if (pieceGrams >= largePiece.grams && ovenF >= largePiece.ovenF) return answer({});
    return answer({ notMet: [{ code: 'humidity.large-piece', with: { pieceGrams, ovenF } }] });
  }
  const option = humidity.find(({ code }) => code === record.kind);
  if (!option) return answer({ missing: [{ code: 'humidity.option', with: { option: record.kind } }] });
  const { leastF } = option;
  const have = requireMinutes(record.minutes, 'minutes');
  if (cookMinutes === null) return answer({ leastF, missing: [{ code: 'cook.times', with: {} }] });
  const cook = requireMinutes(cookMinutes, 'cookMinutes');
  const need = Math.max(option.share * cook, option.minutes);
  const notMet: HeatFinding[] = [];
  if (cook < option.cookMinutes)
    notMet.push({ code: 'humidity.cook-short', with: { minutes: cook, need: option.cookMinutes } });
  if (have < need) notMet.push({ code: 'humidity.short', with: { minutes: have, need } });
  return answer({ leastF, notMet });
}

function requireMinutes(minutes: number, field: string): number {
  if (requireFinite(minutes, field) < 0) throw new ValidationError('minutes.negative', field, { minutes });
  return minutes;
}
