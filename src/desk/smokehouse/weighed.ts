/** What was weighed of a made batch beside what its sheet asks for. */
import type { WeighedRow } from '../../book/records/smokehouse/made-weights.ts';
import type { MadeSheet, Ppm, SheetAmount, SmokeFinding } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { pantryOf } from '../recipes/library.ts';
import { type Started } from './made-batch.ts';
import { onParts } from './meat.ts';
import { reckon } from '../recipes/reckon.ts';

/** Grams by the id of the ingredient, voided weights left out. */
export function weighedGrams(rows: readonly WeighedRow[]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { ingredient_id: of, grams, void_reason: voided } of rows)
    if (voided === null) sums.set(String(of), (sums.get(String(of)) ?? 0) + grams);
  return sums;
}

/** The sheet with what was weighed so far. */
export function withWeighed(session: Session, sheet: MadeSheet, rows: readonly WeighedRow[]): MadeSheet {
  const sums = weighedGrams(rows);
  return {
    ...sheet,
    amounts: sheet.amounts.map((amount): SheetAmount => {
      const weighed = sums.get(String(amount.ingredientId)) ?? 0;
      return {
        ...amount,
        weighedGrams: weighed,
        done: weighed > 0 && weighed >= amount.grams - amount.stepGrams,
        lastLot: session.book.madeWeights.lastLot(amount.ingredientId) ?? '',
      };
    }),
  };
}

/** Ppm and findings of what was really weighed; what is not weighed yet counts as asked for, but for cures. */
export function ofWeighed(
  { sheet, body, cards, meat }: Pick<Started, 'sheet' | 'body' | 'cards' | 'meat'>,
  sums: ReadonlyMap<string, number>,
): { ppm: Ppm | null; findings: SmokeFinding[]; pickleShare: number } {
  const pantry = pantryOf(cards);
  const amounts = new Map(
    sheet.amounts.map(({ ingredientId, grams }): [string, number] => {
      const of = String(ingredientId);
      return [of, sums.get(of) ?? (pantry.mixes.has(of) ? 0 : grams)];
    }),
  );
  const scales = { smallStep: sheet.smallStepGrams, largeStep: sheet.largeStepGrams };
  const { ppm, findings, pickleShare } = reckon(body, onParts(body, meat), pantry, scales, amounts);
  return { ppm, findings, pickleShare };
}

/** Ingredients with a strength that nothing was weighed of. */
export function unweighedCures(
  { sheet, cards }: Pick<Started, 'sheet' | 'cards'>,
  rows: readonly WeighedRow[],
): string[] {
  const sums = weighedGrams(rows);
  const { mixes } = pantryOf(cards);
  return sheet.amounts
    .filter(({ ingredientId }) => mixes.has(String(ingredientId)) && !sums.has(String(ingredientId)))
    .map(({ name }) => name);
}
