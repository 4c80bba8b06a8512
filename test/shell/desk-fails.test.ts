/** Failures of the desk under the built shell: no hidden process keeps a lock, and the failure is reported. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { bridgeOf, click, opened, started, windowOf } from './running.ts';

const soon = { timeout: 10_000 };
afterEach(() => void vi.unstubAllEnvs());

describe('the demo', () => {
  it('reports a missing temporary folder in the window, and is generated once there is one', async () => {
    let place = '';
    const shell = await opened({
      installed: true,
      args: ['--demo'],
      prepare(folder) {
        place = join(folder, 'temporary');
        vi.stubEnv('TMPDIR', place);
        writeFileSync(join(folder, 'demo-0.1.0.gambrel'), ''); // An empty book as the cached demo.
      },
    });
    const bridge = await bridgeOf(shell);
    expect(await bridge.call('shop.get', {})).toMatchObject({
      problem: { code: 'temporary.folder', with: { path: place } },
    });
    expect(shell.desks).toHaveLength(1);
    mkdirSync(place);
    expect(await bridge.call('shop.tryAgain', {})).toMatchObject({ value: { open: true } });
    expect(await (await bridgeOf(shell)).call('shop.get', {})).toMatchObject({ value: { demo: true } });
  });
});

describe('an unhandled rejection in the desk', () => {
  it('ends the desk with a code, starts another and is reported', async () => {
    const shell = await opened();
    await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    shell.desks[0]?.rejects();
    await expect.poll(() => shell.desks.length, soon).toBe(2);
    await expect.poll(() => shell.dialogs[0]?.message, soon).toMatch(/stopped, so it was restarted/);
    const log = readFileSync(join(shell.folder, 'logs', 'gambrel.log'), 'utf8');
    expect(log).toMatch(/ desk-broken error=TypeError /);
    expect(log).toMatch(/ desk-stopped code=70$/m);
  });
});

describe('a desk that ran out of memory', () => {
  it.each([
    ['as Node aborts', 6],
    ['as Electron traps', 5],
    ['as Windows tells it', -536870904],
  ])('reports it: %s', async (_how, code) => {
    const shell = await opened();
    shell.desks[0]?.crash(code);
    await expect
      .poll(() => shell.dialogs[0]?.message, soon)
      .toMatch(/ran out of memory, so it was restarted/);
  });

  it('reports it when the system gives the reason', async () => {
    const shell = await opened();
    shell.app.emit(
      'child-process-gone',
      {},
      { type: 'Utility', name: 'Gambrel desk', reason: 'oom', exitCode: 1 },
    );
    shell.desks[0]?.crash(1);
    await expect.poll(() => shell.dialogs[0]?.message, soon).toMatch(/ran out of memory/);
  });

  it('is not reported for other errors of V8, which do not end the shell', async () => {
    const shell = await opened();
    shell.desks[0]?.fatal();
    await expect
      .poll(() => shell.dialogs[0]?.message, soon)
      .toMatch(/runs the record book stopped, so it was restarted/);
    expect(readFileSync(join(shell.folder, 'logs', 'gambrel.log'), 'utf8')).toMatch(
      / desk-fatal type=FatalError$/m,
    );
  });
});

describe('failed work in the shell', () => {
  it('does not block quitting', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened();
    const window = windowOf(shell);
    // The next desk starts, but the window cannot be told to reload.
    vi.spyOn(window.contents, 'reload').mockImplementation(() => {
      throw new Error('Object has been destroyed');
    });
    shell.desks[0]?.crash();
    await expect.poll(() => shell.dialogs[0]?.message, soon).toMatch(/^Gambrel could not do that\./);
    window.close();
    await expect.poll(() => shell.ended, soon).toBe(0);
    expect(shell.desks.at(-1)?.sent.at(-1)).toBe('close');
    told.mockRestore();
  });

  it('is reported if it was requested in the menu', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened();
    vi.spyOn(windowOf(shell).contents, 'getPrintersAsync').mockRejectedValue(new Error('no spooler'));
    click(shell, '&Label printer…');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^Gambrel could not do that\./);
    told.mockRestore();
  });

  it('ends the program at the very start, so that it does not run invisibly', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await started({ rejects: { BrowserWindow: new Error('no display') } });
    await expect.poll(() => shell.ended, soon).toBe(1);
    expect(shell.dialogs[0]?.message).toMatch(/^Gambrel could not start\./);
    told.mockRestore();
  });
});
