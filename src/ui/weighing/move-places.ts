import type { CallInput, WeighingRow } from '../../bridge/contract.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { CUT_PARTS } from '../../trade/weighing.ts';

type To = NonNullable<CallInput<'table.move'>['to']>;
/** A possible place of a weight, with its name. */
export type Place = Required<To> & { key: string; label: string };

const CARCASS = ['live', 'dressed', 'received', 'hanging'] as const;

/**
 * The places that a weight of this stage may have been meant for: a part as another part or primal, a carcass weight
 * as another carcass weight. Packages have one place only.
 */
export function placesOf(
  stage: WeighingRow['stage'],
  primals: readonly { code: string; name: string; brought: number }[],
): Place[] {
  const came = primals.filter(({ brought }) => brought > 0);
  if (stage === 'cut' || stage === 'primal')
    return [
      ...CUT_PARTS.map((part) => place({ stage: 'cut', part, primal: null }, words.part[part])),
      ...came.map(({ code, name }) => place({ stage: 'primal', part: 'primal', primal: code }, name)),
      ...came.flatMap(({ code, name }) =>
        (['whole cuts', 'trim'] as const).map((part) =>
          place(
            { stage: 'cut', part, primal: code },
            weighingText.partOf({ part: words.part[part], primal: name }),
          ),
        ),
      ),
    ];
  if (stage === 'packed' || stage === 'grinder') return [];
  return CARCASS.map((at) => place({ stage: at, part: 'carcass', primal: null }, words.weighStage[at]));
}

function place(to: Required<To>, label: string): Place {
  return { ...to, key: `${to.stage} ${to.part} ${to.primal ?? ''}`, label };
}

/** Whether the weight is already there. */
export const movesTo = (
  { stage, part, primal }: Pick<Place, 'stage' | 'part' | 'primal'>,
  row: Pick<WeighingRow, 'stage' | 'part' | 'primal'>,
): boolean => stage === row.stage && part === row.part && primal === row.primal;

/** The place of a row, for undo. */
export function placeOf(row: WeighingRow): To | undefined {
  return row.stage === 'grinder'
    ? undefined
    : { stage: row.stage, part: row.part as To['part'], primal: row.primal };
}
