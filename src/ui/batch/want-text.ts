import type { FatSourceCard, GrinderView, OrderedFat } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';
import type { Format } from '../texts/format.ts';

export type Want = GrinderView['waiting'][number]['wants'][number];

/**
 * Describes an order for ground meat with its fat.
 * @example 'Breakfast sausage, 20.0% fat (Pork trim 50/50)'
 */
export function wantText(want: OrderedFat, sources: readonly FatSourceCard[], format: Format): string {
  return `${want.product}, ${wantFat(want, sources, format)}`;
}

/** The fat only: '20.0% fat (Pork trim 50/50)', or the recipe that says what goes in: 'by the recipe Snack sticks'. */
export function wantFat(
  { fat, targetFat, recipe }: OrderedFat,
  sources: readonly FatSourceCard[],
  format: Format,
): string {
  if (recipe) return text.wantsRecipe(recipe);
  if (fat === 'none') return text.wantsNoFat;
  const name = fat === 'own' ? text.wantsOwnFat : (sources.find(({ code }) => code === fat)?.name ?? fat);
  return targetFat === null ? name : text.wantsFat({ fat: name, target: format.share(targetFat) });
}
