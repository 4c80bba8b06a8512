/** Were the quotes right? Those whose animal came in a season and is finished, beside what came of it. */
import type { YieldRow } from '../book/sums.ts';
import { binomialBand } from '../core/binomial-band.ts';
import { boughtFat } from './owners.ts';
import type { DeskRoom } from './room.ts';
import type { QuoteKept, QuoteResult, SeasonLook } from './shapes.ts';
import { baseGrams, wholeTakeHomeGrams } from './take-home.ts';
import { LEVEL } from './yield-knowledge.ts';

export function keptQuotes(
  room: DeskRoom,
  season: number,
  finished: readonly YieldRow[],
): SeasonLook['quotes'] {
  const rows = new Map(finished.map((row) => [row.id, row]));
  const kept = room.book.quotes.takenIn(season).flatMap(({ animal, ticket, name, answered }): QuoteKept[] => {
    const row = rows.get(animal);
    const own = row ? wholeTakeHomeGrams(row) : null;
    const hungGrams = row ? baseGrams(row) : null;
    if (!row || own === null || hungGrams === null) return [];
    const { takeHomeGrams: quotedGrams, hangingGrams } = JSON.parse(answered) as QuoteResult;
    const takeHomeGrams = own + boughtFat(room, { id: animal, ticket });
    const speciesName = room.species.of(row.species).name;
    return [
      {
        ticket,
        quote: name,
        speciesName,
        quotedGrams,
        takeHomeGrams,
        toldGrams: hangingGrams.mean,
        hungGrams,
      },
    ];
  });
  return { kept, honest: binomialBand(LEVEL, kept.length) };
}
