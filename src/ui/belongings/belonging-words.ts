import type { Belonging } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { text } from '../../words/compiled/window/belongings.ts';
import { wordFor } from '../texts/codes.ts';

/** @example kindName('caul fat') // 'Caul fat' */
export const kindName = (kind: string): string => wordFor(text.kinds, kind);

/** Its storage place, or where it went and when. */
export function whereText({ end, place }: Pick<Belonging, 'end' | 'place'>, format: Format): string {
  if (!end) return place || text.here;
  return [
    text.wentTo({ went: end.went, name: end.name }),
    format.day(end.on),
    end.receipt && text.receipt({ number: end.receipt }),
    end.note,
  ]
    .filter(Boolean)
    .join(', ');
}
