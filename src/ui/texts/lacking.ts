import type { RecordSet } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/books/record.ts';
import { listText } from '../../words/list.ts';

/** The fields that an entry of the record book lacks, as a list. */
export function lackingText(fields: RecordSet['asks']): string {
  return listText(fields.map((field) => text.fields[field]));
}
