import type { QuoteRecord } from '../../book/records/quotes.ts';
import type { AdjustmentAsked, QuoteLine, QuoteResult } from '../contract/contract.ts';

/** Lines of quotes saved before the amounts were kept beside the sums lack them. */
type SavedLine = Omit<QuoteLine, 'basis' | 'quantity' | 'unit' | 'unitPriceMinor'> & Partial<QuoteLine>;
type Price = NonNullable<QuoteResult['price']>;
type SavedPrice = Omit<Price, 'lines' | 'unpriced' | 'chargeable'> &
  Partial<Pick<Price, 'unpriced' | 'chargeable'>> & { lines: SavedLine[] };
/** Quotes saved before figures had a grade named their sources alone. */
type SavedBasis =
  QuoteResult['restsOn'] | { ownAnimals: number; relatives: boolean; source: string; weightSource: string };
type Saved = Omit<QuoteResult, 'price' | 'restsOn'> & { price: SavedPrice | null; restsOn: SavedBasis };

/** What a saved quote said, as it was given; amounts that an old one did not keep are null. */
export function answeredOf({ answered }: Pick<QuoteRecord, 'answered'>): QuoteResult {
  const saved = JSON.parse(answered) as Saved;
  const { price } = saved;
  return {
    ...saved,
    restsOn: basisOf(saved.restsOn),
    price: price && {
      unpriced: [],
      chargeable: [],
      ...price,
      lines: price.lines.map((line) => ({
        basis: '',
        quantity: null,
        unit: null,
        unitPriceMinor: null,
        ...line,
      })),
    },
  };
}

/** What a saved quote leaves the price book for; none in one from before. @param asked as it was saved */
export function promisedIn(asked: string): AdjustmentAsked[] {
  return (JSON.parse(asked) as { adjustments?: AdjustmentAsked[] }).adjustments ?? [];
}

function basisOf(saved: SavedBasis): QuoteResult['restsOn'] {
  if ('takeHome' in saved) return saved;
  const { ownAnimals, relatives, source, weightSource } = saved;
  return {
    ownAnimals,
    relatives,
    takeHome: { grade: null, source },
    weight: weightSource === '' ? null : { grade: null, source: weightSource },
  };
}
