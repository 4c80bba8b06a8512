import type { CutPart, WeighingRow } from '../../bridge/contract.ts';
import { wordFor } from '../texts/codes.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';

type Named = readonly { code: string; name: string }[];

/** The name of a primal by its code; the code itself if the species no longer has it. */
export function primalName(code: string, primals: Named): string {
  return primals.find((primal) => primal.code === code)?.name ?? code;
}

/**
 * The description of a saved weight.
 * @example weighingName({ stage: 'cut', part: 'trim', primal: 'shoulder', product: null }, elk.primals) // 'Trim from Shoulder'
 */
export function weighingName(
  row: Pick<WeighingRow, 'stage' | 'part' | 'product' | 'primal'>,
  primals: Named,
): string {
  if (row.stage === 'packed') return row.product ?? words.weighStage.packed;
  if (row.stage === 'primal') return primalName(row.primal ?? words.weighStage.primal, primals);
  if (row.stage === 'cut') {
    const part = wordFor(words.part, row.part);
    return row.primal ? weighingText.partOf({ part, primal: primalName(row.primal, primals) }) : part;
  }
  return row.stage === 'grinder'
    ? weighingText.intoGrinder({ part: wordFor(words.part, row.part) })
    : words.weighStage[row.stage];
}

/**
 * The same inside a sentence. Names of primals and products stay as they are written.
 * @example weighingInSentence({ stage: 'hanging', part: 'carcass', … }, primals) // 'hanging weight'
 */
export function weighingInSentence(row: Parameters<typeof weighingName>[0], primals: Named): string {
  if (row.stage === 'primal' || (row.stage === 'packed' && row.product !== null))
    return weighingName(row, primals);
  const primal = row.stage === 'cut' && row.primal ? primalName(row.primal, primals) : null;
  return weighingText.inSentence({ stage: row.stage, part: row.part as CutPart, primal });
}
