/** What the smoke tests share: the program packed once, a folder for each test, and what is kept of each run. */
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, inject } from 'vitest';
import { folders } from './in-main.ts';
import { start, startWords, type Running } from './packed.ts';

/** Pictures and logs of the last run, to be looked at and to be kept by whoever runs the tests elsewhere. */
const RESULTS = resolve(
  import.meta.dirname,
  '../../test-results/smoke',
  process.env['GAMBREL_SMOKE_DISPLAY'] ?? '',
);

export interface SmokeRoom {
  program: string;
  folder: string;
  book: string;
  running: Running | null;
  /** Starts the program on the test's own book. */
  open(): Promise<Running>;
  /** Starts it with these words. */
  startWith(args: readonly string[]): Promise<Running>;
  /** Quits it as its menu does; resolves to the folder of its log. */
  quit(): Promise<string>;
}

export function smokeRoom(): SmokeRoom {
  const room: SmokeRoom = {
    program: inject('program'),
    folder: '',
    book: '',
    running: null,
    open: () => room.startWith(startWords(room.folder, room.book)),
    startWith: async (args) => (room.running = await start(room.program, args)),
    async quit() {
      const { app } = room.running ?? (await room.open());
      const { logs } = await app.evaluate(folders);
      await app.close();
      room.running = null;
      return logs;
    },
  };
  beforeEach(() => {
    room.folder = mkdtempSync(join(tmpdir(), 'gambrel-smoke-'));
    room.book = join(room.folder, 'shop.gambrel');
    writeFileSync(room.book, ''); // a new book: one that is named and not there is not made unasked
  });
  afterEach(async ({ task }) => {
    const name = task.name.slice(0, 60).replace(/\W+/g, '-');
    if (room.running) {
      mkdirSync(RESULTS, { recursive: true });
      const { page, app } = room.running;
      // A test that crashed the window has no page to take a picture of.
      await page.screenshot({ path: join(RESULTS, `${name}.png`), timeout: 5_000 }).catch(() => undefined);
      const { logs } = await app.evaluate(folders);
      await room.quit();
      if (existsSync(logs)) cpSync(logs, join(RESULTS, `${name}.logs`), { recursive: true });
    }
    rmSync(room.folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  });
  return room;
}
