import { isDeepStrictEqual } from 'node:util';
import { FATS } from '../supplied/resources.ts';
import type { HistoryChange, HistoryValue, Instructions } from '../contract/contract.ts';

/** What changed between two cutting instructions, by field and by piece. */
export function orderChanges(
  before: Instructions,
  after: Instructions,
  nameOf: (primal: string) => string,
): HistoryChange[] {
  const plain = (
    [
      ['cutsShare', (one) => one.cutsShare],
      ['fat', (one) => fatName(one.fat)],
      ['targetFat', (one) => one.targetFat],
      ['grindProduct', (one) => one.grindProduct],
      ['pattyGrams', (one) => one.pattyGrams],
      ['packageGrams', (one) => one.packageGrams],
      ['alsoGround', (one) => one.alsoGround.map(({ product }) => product)],
      ['pricedExtras', (one) => counted(one.pricedExtras)],
      ['extras', (one) => one.extras.join(', ')],
      ['note', (one) => one.note],
    ] satisfies [string, (one: Instructions) => HistoryValue][]
  ).map(([field, valueIn]) => ({ field, before: valueIn(before), after: valueIn(after) }));
  const primals = [...new Set([...before.primals, ...after.primals].map(({ primal }) => primal))];
  const pieces = primals.map((primal) => ({
    field: 'piece',
    of: nameOf(primal),
    before: orderOf(before, primal),
    after: orderOf(after, primal),
  }));
  return [...plain, ...pieces].filter(({ before, after }) => !isDeepStrictEqual(before, after));
}

/** @example counted({ caping: 1, rush: 2 }) // 'caping, 2 × rush' */
function counted(extras: Instructions['pricedExtras']): string {
  return Object.entries(extras)
    .map(([code, count]) => (count === 1 ? code : `${count} × ${code}`))
    .join(', ');
}

function orderOf({ primals }: Instructions, primal: string): HistoryValue {
  const order = primals.find((one) => one.primal === primal);
  return order ? { as: order.as, size: order.size } : null;
}

function fatName(fat: string): string {
  return FATS.find(({ code }) => code === fat)?.name ?? fat;
}
