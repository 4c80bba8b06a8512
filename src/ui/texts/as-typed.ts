import type { AnimalPage, CutPart, WeighingRow, WeighStage } from '../../bridge/contract.ts';
import { namesUnit } from '../../core/values/names-unit.ts';
import { typedWithUnit } from './typed.ts';

/**
 * The weight of a stage as it was typed, if one weight without a container says it and names its unit; otherwise
 * undefined, as for a bare number, which is written like any other mass.
 * @example stageSaid(page, 'hanging') // '108 lb 2 oz'
 */
export function stageSaid({ weighings }: Pick<AnimalPage, 'weighings'>, of: WeighStage): string | undefined {
  return said(weighings.filter(({ stage, voided }) => voided === null && stage === of));
}

/** The same for a part. */
export function partSaid({ weighings }: Pick<AnimalPage, 'weighings'>, of: CutPart): string | undefined {
  return said(
    weighings.filter(({ stage, part, voided }) => voided === null && stage === 'cut' && part === of),
  );
}

function said(rows: readonly WeighingRow[]): string | undefined {
  const [only] = rows;
  const whole = only && rows.length === 1 && only.tareTyped === null && namesUnit(only.typed);
  return whole ? typedWithUnit(only.typed, only.unit) : undefined;
}
