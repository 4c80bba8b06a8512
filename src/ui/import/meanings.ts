import type { ImportField } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { text as importText } from '../../words/compiled/window/books/import.ts';
import { wordFor } from '../texts/codes.ts';
import { text as words } from '../../words/compiled/shared/common.ts';

/** The display names of the possible meanings of a word. */
export function useMeanings(): (field: ImportField, value: string) => string {
  const shop = useShop();
  return (field, value) => {
    if (field === 'species') return shop.species(value)?.name ?? value;
    if (field === 'sex' || field === 'age' || field === 'brought') return wordFor(words[field], value);
    const table: Readonly<Record<string, string>> | undefined = Object.entries(importText.meanings).find(
      ([name]) => name === field,
    )?.[1];
    return table ? wordFor(table, value) : value;
  };
}
