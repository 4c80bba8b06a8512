import type { FatChoice, FatLotRow, FatSourceCard, GrinderView } from '../../bridge/contract.ts';
import type { ChoiceOption } from '../parts/index.ts';
import { text } from '../../words/compiled/window/grinder.ts';
import type { Format } from '../texts/format.ts';

type LoadingSign = GrinderView['waiting'][number];

/**
 * The fats that can be selected for the chosen animals: none, their own, each bought kind with stock left, and a kind
 * that an order asks for even without stock, so that it can be bought.
 */
export function fatOptions(
  chosen: readonly LoadingSign[],
  lots: readonly FatLotRow[],
  sources: readonly FatSourceCard[],
  format: Format,
): ChoiceOption<FatChoice>[] {
  const own = chosen.reduce((total, animal) => total + animal.ownFatLeftGrams, 0);
  const wanted = new Set(chosen.flatMap((animal) => animal.wants.map(({ fat }) => fat)));
  const bought = sources
    .filter((source) => source.animal !== 'own')
    .map((source) => ({ source, grams: leftOf(source.code, lots) }))
    .filter(({ source, grams }) => grams > 0 || wanted.has(source.code))
    .map(({ source, grams }) => ({ value: source.code, label: source.name, note: onHand(grams, format) }));
  return [
    { value: 'none', label: text.noFat, note: text.leanAsItIs },
    { value: 'own', label: text.ownFat, note: onHand(own, format) },
    ...bought,
  ];
}

/** Grams left of a bought kind, over all lots within their use-by date. */
export function leftOf(source: string, lots: readonly FatLotRow[]): number {
  return lots
    .filter((lot) => lot.source === source && lot.ticket === null && lot.keeps !== 'past')
    .reduce((total, lot) => total + lot.leftGrams, 0);
}

function onHand(grams: number, format: Format): string {
  return grams > 0 ? text.onHand({ mass: format.mass(grams) }) : text.noneOnHand;
}
