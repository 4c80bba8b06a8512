import type { QuoteRecord } from '../book/quotes.ts';
import type { QuoteLine, QuoteResult } from './shapes.ts';

/** Lines of quotes saved before the amounts were kept beside the sums lack them. */
type SavedLine = Omit<QuoteLine, 'basis' | 'quantity' | 'unit' | 'unitPriceMinor'> & Partial<QuoteLine>;
type SavedPrice = Omit<NonNullable<QuoteResult['price']>, 'lines'> & { lines: SavedLine[] };
type Saved = Omit<QuoteResult, 'price'> & { price: SavedPrice | null };

/** What a saved quote said, as it was given; amounts that an old one did not keep are null. */
export function answeredOf({ answered }: Pick<QuoteRecord, 'answered'>): QuoteResult {
  const saved = JSON.parse(answered) as Saved;
  const { price } = saved;
  return {
    ...saved,
    price: price && {
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
