import type { Place } from '../trade/place.ts';
import { procedures } from './procedures.ts';
import type { AskName, Stale } from './reads.ts';

/** Of the queries to repeat those that a place may make; null for all of them, undefined for none. */
export function staleAt(stale: Stale | null, place: Place): Stale | null | undefined {
  if (!stale) return null;
  const here = (names: readonly AskName[]): AskName[] =>
    names.filter((name) => (procedures[name].places as readonly Place[]).includes(place));
  const asks = here(stale.asks);
  const ofAnimals = { asks: here(stale.ofAnimals.asks), ids: stale.ofAnimals.ids };
  return asks.length > 0 || ofAnimals.asks.length > 0 ? { asks, ofAnimals } : undefined;
}
