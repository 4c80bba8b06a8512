import type { QuoteResult } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/quote.ts';
import type { Format } from '../texts/format.ts';

/** The basis of a quote: the shop's own animals, those of other shops, relatives, or published figures only. */
export function restsOn({ restsOn: base }: Pick<QuoteResult, 'restsOn'>): string {
  if (base.ownAnimals > 0) return text.restsOnOwn({ n: base.ownAnimals });
  if (base.others) return text.restsOnOthers(base.others);
  return base.relatives ? text.restsOnRelatives : text.restsOnPublished;
}

/** The quote as a sentence for the phone, in whole pounds or kilograms and whole units of money. */
export function phoneSentence(
  { takeHomeGrams, price }: Pick<QuoteResult, 'takeHomeGrams' | 'price'>,
  days: number,
  format: Format,
): string {
  return text.phone({
    takeHome: format.mass(takeHomeGrams.mean, 0),
    range: format.massRange(takeHomeGrams.low, takeHomeGrams.high, 0),
    price: price && format.aboutMoney(price.mean),
    priceRange: price ? format.aboutMoneyRange(price.low, price.high) : '',
    days,
  });
}
