/** Changed fields of an animal's history with their values before and after. */
import { HUNTER_LANGUAGES } from '../../words/hunter-language.ts';
import { languages } from '../../words/languages.ts';
import type { HistoryChange, HistoryValue } from '../../bridge/contract.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/books/history.ts';
import { text as ordersText } from '../../words/compiled/window/orders.ts';
import { listText } from '../../words/list.ts';
import { piecesText } from '../texts/pieces.ts';
import { wordFor } from '../texts/codes.ts';
import type { Format } from '../texts/format.ts';

const DAYS: ReadonlySet<string> = new Set(['kill_date', 'received_on', 'released_on', 'promised_on']);

/** @example changeText({ field: 'tag', before: '', after: 'E-1017' }, format) // 'Tag or permit: nothing → E-1017' */
export function changeText({ field, of, before, after }: HistoryChange, format: Format): string {
  return text.changed({
    field: of ?? wordFor(text.fields, field),
    before: valueText(field, before, format),
    after: valueText(field, after, format),
  });
}

/** A field's value: a weight, a share, a day, the name of a code, names, how a piece is wanted, or what was typed. */
export function valueText(field: string, value: HistoryValue, format: Format): string {
  if (value === null || value === '') return text.nothing;
  if (typeof value === 'boolean') return text.answer({ yes: value });
  if (typeof value === 'number')
    return field.endsWith('Grams') ? format.mass(value) : format.share(value, field === 'cutsShare' ? 0 : 1);
  if (typeof value === 'object') return severalText(value);
  if (DAYS.has(field)) return format.longDay(value);
  return namesOf(field)[value] ?? value;
}

function severalText(value: Extract<HistoryValue, object>): string {
  if ('as' in value) return ordersText.use(value);
  if ('pieces' in value) return piecesText(value.pieces, []);
  return value.length > 0 ? listText(value) : text.nothing;
}

function namesOf(field: string): Readonly<Record<string, string>> {
  switch (field) {
    case 'stage':
    case 'sex':
    case 'age':
    case 'legs':
    case 'brought':
      return words[field];
    case 'language':
      return Object.fromEntries(HUNTER_LANGUAGES.map((code) => [code, languages[code].name]));
    case 'detail':
      return text.details;
    case 'origin':
      return text.origins;
    case 'fat':
      return text.fats;
    default:
      return {};
  }
}
