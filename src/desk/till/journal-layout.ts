/** The columns of the accountant's files: the header row of each file, and the text that describes them. */
import { text as english } from '../../words/compiled/desk/journal.ts';
import type { Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';

/** Names of columns are read by programs and are the same in every language. */
export const JOURNAL_COLUMNS = [
  'date',
  'type',
  'number',
  'hunter',
  'ticket',
  'description',
  'net',
  'tax_rate',
  'tax',
  'payment',
  'method',
  'currency',
] as const;

export const SUMMARY_COLUMNS = ['month', 'section', 'item', 'net', 'tax', 'amount', 'currency'] as const;

/** The description for the accountant, as plain text. */
export function layoutText(language: Language): string {
  const text = inLanguage(english, language);
  return [
    text.journal,
    ...JOURNAL_COLUMNS.map((name) => `  ${name}: ${text.inJournal[name]}`),
    '',
    text.summary,
    ...SUMMARY_COLUMNS.map((name) => `  ${name}: ${text.inSummary[name]}`),
    '',
    text.encoding,
    text.shielded,
    '',
  ].join('\r\n');
}
