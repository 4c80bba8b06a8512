/** Whatever is refused on the way, and in whatever order seasons are written, ticket numbers run without a gap. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { freshDesk } from '../fresh-desk.ts';

const GOOD = {
  hunter: { name: 'Dana Whitlock' },
  species: 'elk',
  sex: 'male',
  age: 'adult',
  brought: 'skinned',
} as const;

/** What may go wrong at the counter, each refused at another point of the way. */
const WRONG = [
  { hunter: { name: '' } },
  { hunter: { id: 9999 } },
  { species: 'unicorn' },
  { receivedOn: '2026-02-30' },
  { receivedOn: '2030-01-01' },
  { receivedOn: '0026-11-20' },
  { receivedOn: '1926-11-20' },
  { receivedOn: '2126-11-20' },
  { receivedOn: '2025-10-09' },
  { killDate: '2026-10-10', receivedOn: '2026-09-01' },
  { promisedOn: '2020-01-01' },
  { brought: 'quarters', parts: [{ primal: 'wing', count: 1 }] },
  // Refused after the number was given: the weight is read last, and the quote is looked up last of all.
  { weights: [{ stage: 'received', typed: 'heavy' }] },
  { weights: [{ stage: 'received', typed: '-4' }] },
  { weights: [{ stage: 'received', typed: '99999' }] },
  { quoteId: 4711 },
] as const;

it('is so after any mixture of takings-in, carried out and refused', async () => {
  const step = fc.oneof(
    fc
      .constantFrom('2026-10-09', '2026-08-01', '2025-12-24', '2024-07-01')
      .map((receivedOn) => ({ receivedOn, confirmed: true })),
    fc.constantFrom(...WRONG),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 14 }), async (steps) => {
      const shop = await freshDesk();
      try {
        const given: string[] = [];
        for (const more of steps) {
          const answer = await shop.desk.call('intake.takeIn', { ...GOOD, ...more });
          const wrong = (WRONG as readonly object[]).includes(more);
          expect(answer.ok, JSON.stringify(more)).toBe(!wrong);
          if (answer.ok) given.push((answer.value as { ticket: string }).ticket);
        }
        const { seasons } = await shop.call('records.check', {});
        expect(seasons.flatMap(({ gaps }) => gaps)).toEqual([]);
        expect(seasons.reduce((sum, { entries }) => sum + entries, 0)).toBe(given.length);
        expect(new Set(given).size).toBe(given.length);
        for (const { first, last, entries } of seasons)
          expect([first.slice(3), Number(last.slice(3))]).toEqual(['0001', entries]);
        expect(shop.broken).toEqual([]);
      } finally {
        shop.desk.close();
      }
    }),
    { numRuns: 25, seed: 20261125 },
  );
}, 60_000);
