import { expect, it } from 'vitest';
import { openRecordBook } from '../../../src/book/book.ts';
import { tempBookPath } from '../temp-book.ts';

/** The shortest time of some rounds, in milliseconds: what else the computer does makes rounds longer, never shorter. */
function shortest(work: (id: number) => unknown): number {
  let best = Infinity;
  for (let round = 0; round < 30; round++) {
    const start = performance.now();
    for (let id = 1; id <= 100; id++) work(id);
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

it('runs a statement for another id without compiling it again', () => {
  const book = openRecordBook(tempBookPath(), new Date('2026-10-10T15:00:00Z'));
  const holds = 'SELECT id, reason FROM hold_now WHERE animal_id =';
  const bound = book.db.prepare<[number], unknown>(`${holds} ?`);
  const literal = book.db.prepare<[], unknown>(`${holds} 1`);
  expect(shortest((id) => bound.all(id))).toBeLessThan(4 * shortest(() => literal.all()));
  book.close();
});
