/** A field that somebody else changed while the form was open, as the history says it. */
import type { useShop } from '../stores/shop.ts';
import { piecesText } from '../texts/pieces.ts';
import type { Meanwhile } from '../calls/useMeanwhile.ts';
import { changeText } from './history-values.ts';
import { text } from '../../words/compiled/window/books/history.ts';

type Shop = ReturnType<typeof useShop>;

/** @example formChange({ field: 'killDate', before: '', after: '2026-11-03', kept: false }, shop) // 'Kill date: nothing → November 3, 2026' */
export function formChange(
  { field, before, after }: Pick<Meanwhile<Record<string, unknown>>, 'field' | 'before' | 'after'>,
  shop: Pick<Shop, 'species' | 'allSpecies' | 'format'>,
): string {
  const name = field === 'counts' ? 'parts' : field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
  const said = (value: unknown): string => {
    if (typeof value === 'boolean') return value ? '✓' : '';
    if (field === 'species') return shop.species(String(value))?.name ?? String(value);
    if (field !== 'counts') return String(value);
    const counts = Object.entries(value as Record<string, number>).filter(([, count]) => count > 0);
    const primals = shop.allSpecies.flatMap((species) => species.primals);
    return piecesText(counts.map(([primal, count]) => ({ primal, count })), primals); // prettier-ignore
  };
  return changeText(
    { field: field in text.fields ? field : name, before: said(before), after: said(after) },
    shop.format,
  );
}
