import { text } from '../../words/compiled/window/books/record.ts';
import { useSheetRule } from './usePageRule.ts';

/**
 * Prints `Page 2 of 5` at the foot of every sheet while the page is open.
 * @param size the paper as CSS names it: `landscape`, or `auto` for what the printer has
 */
export function usePageNumbers(size: 'landscape' | 'auto'): void {
  // As CSS generates it: quoted words and counters.
  const counted = text
    .pageOf()
    .map((part) => (typeof part === 'string' ? JSON.stringify(part) : `counter(${part.tag})`))
    .join(' ');
  useSheetRule(
    () => `@page { size: ${size}; margin: 12mm 12mm 15mm;
    @bottom-right { content: ${counted}; font: 8pt sans-serif; } }`,
  );
}
