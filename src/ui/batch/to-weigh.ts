import type { BatchPage, FatLotRow, PlanPart } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';

type Row = BatchPage['weighedIn'][number];

/** A planned ingredient with the weights in and left, in grams. */
interface PartToWeigh {
  part: PlanPart;
  inGrams: number;
  toGoGrams: number;
}

/** Compares each planned ingredient with the weights in; a complete one has nothing left. */
export function partsToWeigh(batch: Pick<BatchPage, 'planned' | 'toWeigh' | 'topUp'>): PartToWeigh[] {
  const planned = batch.planned.map((part) => {
    const toGoGrams = batch.toWeigh.find((one) => one.key === part.key)?.grams ?? 0;
    return { part, inGrams: part.grams - toGoGrams, toGoGrams };
  });
  // A planned lot is empty: another lot of the same fat replaces it.
  const others = [...batch.toWeigh, ...topUpPart(batch)]
    .filter(({ key }) => !batch.planned.some((part) => part.key === key))
    .map((part) => ({ part, inGrams: 0, toGoGrams: part.grams }));
  return [...planned, ...others];
}

function topUpPart({ topUp }: Pick<BatchPage, 'topUp'>): PlanPart[] {
  if (!topUp) return [];
  const { fatLotId, grams, fatName, lotCode, ticket, fat } = topUp;
  return [
    {
      key: `fat ${fatLotId}`,
      kind: 'fat',
      ticket,
      fatName,
      lotCode,
      animalId: null,
      fatLotId,
      grams,
      share: 0,
      fat,
    },
  ];
}

/** The kind of this ingredient in the book. */
export function inPart(part: PlanPart, lots: readonly FatLotRow[]): 'trim' | 'fat saved' | 'fat added' {
  if (part.kind === 'trim') return 'trim';
  const lot = lots.find((one) => one.id === part.fatLotId);
  return lot?.ticket ? 'fat saved' : 'fat added';
}

/** The name of a fat lot, with an animal's own fat marked; null for a weight without a lot. */
export function lotName(code: string | null, lots: readonly FatLotRow[]): string | null {
  if (code === null) return null;
  const lot = lots.find((one) => one.code === code);
  return lot?.ticket ? text.ownFat : (lot?.name ?? code);
}

/** The weights that are not voided. */
export function standing<R extends Pick<Row, 'voided'>>(rows: readonly R[]): R[] {
  return rows.filter((row) => row.voided === null);
}
