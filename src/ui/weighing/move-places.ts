import type { CallInput, WeighingRow } from '../../bridge/contract.ts';
import { words } from '../texts/en/common.ts';
import { weighingText } from '../texts/en/animal/weighings.ts';
import { CUT_PARTS } from '../../trade/weighing.ts';

type To = NonNullable<CallInput<'table.move'>['to']>;
/** Where a weight may belong, with its name. */
export type Place = Required<To> & { key: string; label: string };

const CARCASS = ['live', 'dressed', 'received', 'hanging'] as const;

/**
 * Where a weight of this stage may have been meant: a part as another part or as a primal, a carcass as another weight of
 * the carcass. Packages have one place only.
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
          place({ stage: 'cut', part, primal: code }, weighingText.partOf(words.part[part], name)),
        ),
      ),
    ];
  if (stage === 'packed' || stage === 'grinder') return [];
  return CARCASS.map((at) => place({ stage: at, part: 'carcass', primal: null }, words.weighStage[at]));
}

function place(to: Required<To>, label: string): Place {
  return { ...to, key: `${to.stage} ${to.part} ${to.primal ?? ''}`, label };
}

/** Whether the weight stands there already. */
export const movesTo = (
  { stage, part, primal }: Pick<Place, 'stage' | 'part' | 'primal'>,
  row: Pick<WeighingRow, 'stage' | 'part' | 'primal'>,
): boolean => stage === row.stage && part === row.part && primal === row.primal;

/** The place of a row, to move it back to. */
export function placeOf(row: WeighingRow): To | undefined {
  return row.stage === 'grinder'
    ? undefined
    : { stage: row.stage, part: row.part as To['part'], primal: row.primal };
}
