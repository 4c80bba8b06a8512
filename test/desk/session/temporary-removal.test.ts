/** Removing temporary folders where the system holds a file for a moment, as Windows does while its scanner reads it. */
import type * as FileSystem from 'node:fs';
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it, vi } from 'vitest';

const removals = vi.hoisted(() => ({ refused: 0, options: [] as unknown[] }));
vi.mock('node:fs', async (original) => {
  const fs = await original<typeof FileSystem>();
  return {
    ...fs,
    rmSync(path: string, options: object) {
      removals.options.push(options);
      if (removals.refused > 0 && removals.refused--)
        throw Object.assign(new Error('EBUSY: resource busy or locked, rmdir'), { code: 'EBUSY' });
      fs.rmSync(path, options);
    },
  };
});
const { tryRemoveTemporary: dropIfPossible, temporaryFolder } =
  await import('../../../src/desk/session/temporary.ts');
const { openDesk } = await import('../../../src/desk/desk.ts');
const { demoBook } = await import('../../../src/demo/copy.ts');

afterEach(() => void removals.options.splice(0));

it('is retried for a second and a half by the system call itself', () => {
  const folder = temporaryFolder('out');
  dropIfPossible(folder);
  expect(existsSync(folder)).toBe(false);
  // Linear back-off, by Node's documentation: 100 + 200 + … + 500 ms.
  expect(removals.options).toEqual([{ recursive: true, force: true, maxRetries: 5, retryDelay: 100 }]);
});

it('does not prevent closing the demo when it keeps failing', async () => {
  const place = mkdtempSync(join(tmpdir(), 'gambrel-removal-'));
  const kept = join(place, 'kept.gambrel');
  await (await openDesk({ bookPath: kept })).close();
  const broken: unknown[] = [];
  const desk = await openDesk({
    bookPath: join(place, 'shop.gambrel'),
    demo: true,
    demoBook: demoBook(kept),
    onBroken: (error) => broken.push(error),
  });
  expect(await desk.call('shop.get', {}, null)).toMatchObject({ value: { demo: true } });
  removals.refused = 100;
  expect(() => desk.close()).not.toThrow();
  removals.refused = 0;
  expect(broken).toEqual([]);
});
