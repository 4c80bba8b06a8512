/**
 * What the built program holds while it works on the large book: the window with its longest pages open, and the desk
 * while it writes everything out and takes a long table in. How long opening the book takes stands beside it.
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Page } from 'playwright-core';
import { openBrowser } from '../e2e/browser.ts';
import { deskLine } from '../e2e/desk-line.ts';
import { serve, type Served } from '../e2e/served.ts';
import { largeBook } from './large-book.ts';
import { handOver, OLD_ROWS, oldTable, type Line } from './old-table.ts';
import { judged, type Figure } from './timing.ts';

const MAX_DESK_MB = 250;
const PAGES = ['books', 'season/animals', 'season', 'season/flow', 'season/money'];

export async function loadWork(seasons: number): Promise<Figure[]> {
  const book = await largeBook(seasons);
  const figures: Figure[] = [];
  const told = (
    name: string,
    value: number,
    unit: 'ms' | 'MB',
    more: Pick<Figure, 'bar' | 'baseline'> = {},
  ): void => void figures.push(judged({ name, value, unit, ...more }));
  const table = oldTable();
  await served(book, async (one, opened) => {
    told('open the large book, from starting the program to its address', opened, 'ms');
    for (const [page, mb] of await windowHolds(one))
      told(`memory of the window’s scripts, ${page}`, mb, 'MB');
  });
  await served(book, async ({ process: { pid } }, _, call) => {
    const started = performance.now();
    await call('export.create', { what: 'tables' });
    told('write the large book out as tables', performance.now() - started, 'ms');
    told('most memory of the desk meanwhile', mostMb(pid), 'MB', { bar: { mb: MAX_DESK_MB } });
  });
  await served(null, async ({ process: { pid } }, _, call) => {
    const asked = await handOver(call, table);
    const started = performance.now();
    await call('import.run', asked);
    told(`bring ${OLD_ROWS.toLocaleString('en')} animals in`, performance.now() - started, 'ms', {
      baseline: { what: 'reading the table with the CSV package alone', value: parsedMs(table) },
    });
    told('most memory of the desk meanwhile, looking at the table included', mostMb(pid), 'MB', {
      bar: { mb: MAX_DESK_MB },
    });
  });
  return figures;
}

function parsedMs(table: string): number {
  const started = performance.now();
  parse(table);
  return performance.now() - started;
}

/** The program on a copy of a book, or on a new one; it is ended without the backup that closing makes. */
async function served(
  book: string | null,
  work: (one: Served, openedMs: number, call: Line) => Promise<void>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-bench-'));
  const path = join(folder, 'large.gambrel');
  if (book !== null) copyFileSync(book, path);
  const started = performance.now();
  const one = await serve('--book', path);
  const opened = performance.now() - started;
  try {
    await work(one, opened, await deskLine(await one.newAddress()));
  } finally {
    await one.end('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the page's scripts hold after each of the longest pages, with what nobody needs any more swept up. */
async function windowHolds(one: Served): Promise<[string, number][]> {
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    await page.goto(await one.newAddress());
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    const held: [string, number][] = [];
    for (const place of PAGES) {
      await page.evaluate((to) => (location.hash = to), `#/${place}`);
      await page.locator('tbody tr').first().waitFor({ state: 'attached' });
      await settled(page);
      held.push([place, await scriptsMb(page)]);
    }
    return held;
  } finally {
    await browser.close();
  }
}

/** Waits until a second brings nothing new on the page. */
async function settled(page: Page): Promise<void> {
  const elements = () => page.locator('*').count();
  for (let before = -1, now = await elements(); now !== before; now = await elements()) {
    before = now;
    await page.waitForTimeout(1000);
  }
}

async function scriptsMb(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  await session.detach();
  return (metrics.find(({ name }) => name === 'JSHeapUsedSize')?.value ?? NaN) / 2 ** 20;
}

/** The most memory that a process ever held; only Linux tells. */
function mostMb(pid: number | undefined): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) / 2 ** 10;
}
