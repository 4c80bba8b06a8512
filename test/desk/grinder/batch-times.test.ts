/** When batches were at work, as the book says it, against plain loops over what was entered. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn } from '../fresh-desk.ts';

const KINDS = ['in', 'pass', 'pack', 'wait'] as const;
interface Entry {
  batch: number;
  what: (typeof KINDS)[number];
  at: string;
}

it('are those of weights in, passes and packages in any order', async () => {
  const entries = fc.array(fc.tuple(fc.nat(2), fc.constantFrom(...KINDS)), { minLength: 1, maxLength: 14 });
  await fc.assert(
    fc.asyncProperty(entries, async (drawn) => {
      const shop = await freshDesk();
      const id = await takeIn(shop);
      await cut(shop, id, { trim: '200' });
      const ids: number[] = [];
      for (let i = 0; i < 3; i++) {
        const plan = { fat: 'none', targetFat: null, product: 'Ground' } as const;
        ids.push((await shop.call('grinder.start', { ...plan, animals: [{ id }] })).id);
      }
      const entered: Entry[] = [];
      let moment = Date.parse('2026-10-10T15:00:00Z');
      for (const [which, what] of drawn) {
        const batchId = ids[which] ?? 0;
        shop.wait(30);
        moment += 30_000;
        if (what === 'in')
          await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '5', confirmed: true }); // prettier-ignore
        if (what === 'pass') await shop.call('grinder.pass', { batchId, plate: '4.5 mm' });
        const had = entered.some((one) => one.batch === batchId && one.what === 'in');
        if (what === 'pack' && had)
          await shop.call('grinder.pack', { batchId, product: 'Ground', count: 1, typed: '0.2', confirmed: true }); // prettier-ignore
        if (what === 'wait' || (what === 'pack' && !had)) continue;

        entered.push({ batch: batchId, what, at: new Date(moment).toISOString() });
      }
      inBook(shop, (book) => {
        const found = new Map(book.traces.batches(2026).map((row) => [row.id, row]));
        for (const batch of ids) expect(found.get(batch)).toEqual(plainly(batch, entered));
      });
    }),
    { numRuns: 15 },
  );
});

/** The same without SQL. */
function plainly(id: number, entered: readonly Entry[]) {
  const mine = entered.filter(({ batch }) => batch === id);
  const worked = mine.filter(({ what }) => what !== 'pack').map(({ at }) => at);
  if (worked.length === 0) return undefined;
  let clear: string | null = null;
  let passed = false;
  for (const { what, at } of mine) {
    if (what === 'in') [clear, passed] = [null, false];
    if (what === 'pass') [clear, passed] = [at, true];
    if (what === 'pack' && !passed) clear ??= at;
  }
  return { id, first: worked[0], ground: worked.at(-1), clear, last: mine.at(-1)?.at };
}
