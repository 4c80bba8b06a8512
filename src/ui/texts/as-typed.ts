import type { AnimalPage, CutPart, WeighingRow, WeighStage } from '../../bridge/contract.ts';
import { namesUnit } from '../../core/values/names-unit.ts';
import { typedWithUnit } from './typed.ts';

type Unit = 'lb' | 'kg';

/**
 * The weight of a stage as it was typed, if one weight without a container says it in other units than the
 * shop's; otherwise undefined, as for a bare number, which is written like any other mass.
 * @example stageSaid(page, 'hanging', 'lb') // '108 lb 2 oz'
 */
export function stageSaid(
  { weighings }: Pick<AnimalPage, 'weighings'>,
  of: WeighStage,
  unit: Unit,
): string | undefined {
  return said(
    weighings.filter(({ stage, voided }) => voided === null && stage === of),
    unit,
  );
}

/** The same for a part. */
export function partSaid(
  { weighings }: Pick<AnimalPage, 'weighings'>,
  of: CutPart,
  unit: Unit,
): string | undefined {
  return said(
    weighings.filter(({ stage, part, voided }) => voided === null && stage === 'cut' && part === of),
    unit,
  );
}

function said(rows: readonly WeighingRow[], unit: Unit): string | undefined {
  const [only] = rows;
  const whole = only && rows.length === 1 && only.tareTyped === null && namesUnit(only.typed, unit);
  return whole ? typedWithUnit(only.typed, only.unit) : undefined;
}
