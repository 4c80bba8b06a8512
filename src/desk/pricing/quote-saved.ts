import type { QuoteRecord } from '../../book/records/quotes.ts';
import type { AdjustmentInput, QuoteLine, QuoteResult } from '../contract/contract.ts';

/** Older quotes stored only the sums of their lines. */
type SavedLine = Omit<QuoteLine, 'basis' | 'quantity' | 'unit' | 'unitPriceMinor'> & Partial<QuoteLine>;
type Price = NonNullable<QuoteResult['price']>;
type SavedPrice = Omit<Price, 'lines' | 'unpriced' | 'chargeable'> &
  Partial<Pick<Price, 'unpriced' | 'chargeable'>> & { lines: SavedLine[] };
/** Older quotes stored the sources without grades. */
type SavedBasis =
  | QuoteResult['restsOn']
  | { ownAnimals: number; relatives: boolean; source: string; weightSource: string };
type Saved = Omit<QuoteResult, 'price' | 'restsOn'> & { price: SavedPrice | null; restsOn: SavedBasis };

/** The stored answer of a quote; amounts that an older one lacks are null. */
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

/** The stored adjustments of a quote; empty for an older one. @param asked the stored input */
export function promisedIn(stored: string): AdjustmentInput[] {
  return (JSON.parse(stored) as { adjustments?: AdjustmentInput[] }).adjustments ?? [];
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
