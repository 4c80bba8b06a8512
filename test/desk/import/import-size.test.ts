/**
 * Thirty thousand animals in one table: they come in, and go out again, without the desk growing out of bounds. The bench does it with
 * a hundred thousand.
 */
import { describe, expect, it } from 'vitest';
import { importTable } from './import-file.ts';
import { freshDesk } from '../fresh-desk.ts';

const ROWS = 30_000;

/** Ten columns, ten seasons, twenty thousand hunters. */
function bigTable(rows: number): string {
  const lines = ['No,Date,Customer,Phone,Species,Brought as,Sex,Hanging,Take home,Notes'];
  for (let i = 0; i < rows; i++) {
    const hanging = 60 + (i % 400) / 10;
    const day = `${2014 + (i % 10)}-11-${String((i % 28) + 1).padStart(2, '0')}`;
    lines.push(
      `${i},${day},Hunter ${i % 20_000},307-555-${i % 20_000},mule deer,skinned,${i % 2 ? 'buck' : 'doe'},${hanging},${(hanging * 0.55).toFixed(1)},"as, usual"`,
    );
  }
  return lines.join('\r\n');
}

describe(`${ROWS} rows`, () => {
  it('come in and are undone', async () => {
    const shop = await freshDesk();
    const table = bigTable(ROWS);
    globalThis.gc?.();
    const rss = process.memoryUsage().rss;
    const from = performance.now();
    const done = await importTable(shop, 'animals', table, {});
    const took = performance.now() - from;
    const grown = (process.memoryUsage().rss - rss) / 1e6;
    expect(done).toMatchObject({ rows: ROWS, animals: ROWS, hunters: 20_000, weighings: 2 * ROWS });
    const undone = performance.now();
    await shop.call('import.undo', { id: done.id });
    console.log(
      `${ROWS} rows, ${(table.length / 1e6).toFixed(1)} MB: looked at and brought in in ${(took / 1000).toFixed(1)} s, ${grown.toFixed(0)} MB more memory; undone in ${((performance.now() - undone) / 1000).toFixed(1)} s`,
    );
    // About 190 MB; what the collector leaves lying differs by a quarter from machine to machine.
    expect(grown).toBeLessThan(280);
  }, 120_000);
});
