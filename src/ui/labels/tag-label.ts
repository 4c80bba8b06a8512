import type { AnimalPage } from '../../bridge/contract.ts';
import { sexWord } from '../texts/codes.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/labels.ts';
import { text as ordersText } from '../../words/compiled/window/orders.ts';
import { piecesText } from '../texts/pieces.ts';
import type { Writing } from './package-label.ts';

/** The content of a carcass tag. */
export interface TagLabel {
  ticket: string;
  species: string;
  hunter: string;
  facts: { name: string; value: string }[];
  hold: string | null;
  notForSale: boolean;
}

type Tagged = Pick<
  AnimalPage,
  | 'ticket'
  | 'where'
  | 'sex'
  | 'age'
  | 'brought'
  | 'origin'
  | 'tag'
  | 'licence'
  | 'killDate'
  | 'killArea'
  | 'receivedOn'
> &
  Pick<AnimalPage, 'promisedOn' | 'parts' | 'ordersStatus'> & {
    species: {
      name: string;
      words: { male: string; female: string; young: string };
      primals: readonly { code: string; name: string }[];
    };
    hunter: { name: string };
    hold: { reason: string; sample: string; positive: boolean } | null;
  };

/** The tag of an animal; unknown values are omitted. */
export function tagLabel(animal: Tagged, { longDay }: Pick<Writing, 'longDay'>): TagLabel {
  const killed = [animal.killDate && longDay(animal.killDate), animal.killArea].filter(Boolean).join(', ');
  const facts = [
    { name: text.came, value: longDay(animal.receivedOn) },
    { name: text.tag, value: animal.tag },
    { name: text.licence, value: animal.licence },
    { name: text.killed, value: killed },
    { name: text.brought, value: words.brought[animal.brought] },
    { name: text.hangsIn, value: animal.where ?? '' },
    { name: ordersText.tagName, value: animal.ordersStatus === 'not asked' ? ordersText.tagNotAsked : '' },
    { name: text.promised, value: animal.promisedOn ? longDay(animal.promisedOn) : '' },
  ];
  return {
    ticket: animal.ticket,
    species: [
      animal.species.name,
      sexWord(animal.species.words, animal.sex, animal.age),
      piecesText(animal.parts, animal.species.primals),
    ]
      .filter(Boolean)
      .join(', '),
    hunter: animal.hunter.name,
    facts: facts.filter(({ value }) => value !== ''),
    hold:
      animal.hold &&
      text.holdWhy({
        reason: animal.hold.positive ? 'positive' : animal.hold.reason,
        sample: animal.hold.sample,
      }),
    notForSale: animal.origin === 'hunter',
  };
}

/** One tag for each received piece; a single one if no pieces were counted. */
export function tagsNeeded({ parts }: Pick<AnimalPage, 'parts'>): number {
  return Math.max(
    1,
    parts.reduce((total, { count }) => total + count, 0),
  );
}
