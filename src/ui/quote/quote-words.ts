import type { QuoteResult } from '../../bridge/contract.ts';
import { quoteText as text } from '../texts/en/quote.ts';
import type { Format } from '../texts/format.ts';

/** The basis of a quote: the shop's own animals, relatives, or published figures only. */
export function restsOn(
  { restsOn: base }: Pick<QuoteResult, 'restsOn'>,
  species: string,
  many: string,
): string {
  if (base.ownAnimals > 0) return text.restsOnOwn(base.ownAnimals, species.toLowerCase(), many);
  return base.relatives ? text.restsOnRelatives(species.toLowerCase()) : text.restsOnPublished;
}

/** The quote as a sentence for the phone, in whole pounds or kilograms and whole units of money. */
export function phoneSentence(
  { takeHomeGrams, price }: Pick<QuoteResult, 'takeHomeGrams' | 'price'>,
  species: string,
  validDays: number,
  format: Format,
): string {
  return text.phone(
    species.toLowerCase(),
    format.mass(takeHomeGrams.mean, 0),
    format.massRange(takeHomeGrams.low, takeHomeGrams.high, 0),
    price && text.phonePrice(format.aboutMoney(price.mean), format.aboutMoneyRange(price.low, price.high)),
    validDays,
  );
}
