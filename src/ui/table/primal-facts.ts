import type { AnimalPage } from '../../bridge/contract.ts';
import type { MapFact } from '../carcass/map-words.ts';
import { text } from '../../words/compiled/window/table.ts';
import type { Format } from '../texts/format.ts';

/** Weight and share of each primal on the drawing; missing primals are hatched, inconsistent ones are marked. */
export function primalFacts(
  { primals }: Pick<AnimalPage, 'primals'>,
  format: Pick<Format, 'mass' | 'share'>,
): Record<string, MapFact> {
  return Object.fromEntries(
    primals.map(({ code, pair, brought, grams, share, odd, oneSide }) => {
      if (brought === 0) return [code, { text: text.notBrought, dim: true }];
      const sides = pair ? 2 : 1;
      if (grams === null) return [code, { text: brought === sides ? '' : text.came({ count: brought }) }];
      const parts = [
        format.mass(grams),
        oneSide ? text.oneOfTwo : '',
        share === null ? '' : format.share(share),
      ];
      return [code, { text: parts.filter(Boolean).join(' '), odd, tone: '--part-lean' }];
    }),
  );
}
