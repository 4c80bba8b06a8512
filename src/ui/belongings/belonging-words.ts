import type { Belonging } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { belongingKinds, belongingText as text } from '../texts/en/counter/belongings.ts';
import { wordFor } from '../texts/en/common.ts';

/** @example kindName('caul fat') // 'Caul fat' */
export const kindName = (kind: string): string => wordFor(belongingKinds, kind);

/** Its storage place, or where it went and when. */
export function whereText({ end, place }: Pick<Belonging, 'end' | 'place'>, format: Format): string {
  if (!end) return text.here(place);
  return [
    text.wentTo[end.went](end.name),
    format.day(end.on),
    end.receipt && text.receipt(end.receipt),
    end.note,
  ]
    .filter(Boolean)
    .join(', ');
}
