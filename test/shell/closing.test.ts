/** Quitting the built shell: it waits for the book, shows that it waits, and never waits forever. */
import { spawnSync } from 'node:child_process';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { bridgeOf, opened, started, windowOf } from './running.ts';

afterEach(() => void vi.useRealTimers());
const soon = () => new Promise((resolve) => setImmediate(resolve));

/** A shell that is quitting while its desk is busy with the backup, under a fake clock. */
async function quitting() {
  const shell = await opened();
  const [desk] = shell.desks;
  if (!desk) throw new Error('No desk');
  desk.busy = true;
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  windowOf(shell).close();
  await soon();
  return { shell, desk };
}

describe('quitting', () => {
  it('waits for the backup and shows a small window after a moment, which closes by itself', async () => {
    const { shell, desk } = await quitting();
    vi.advanceTimersByTime(600);
    expect([shell.windows.length, shell.ended]).toEqual([0, null]);
    vi.advanceTimersByTime(200);
    const window = windowOf(shell);
    await expect.poll(() => window.contents.address).toBe('app://gambrel/closing.html?language=en-US');
    expect(window.options).toMatchObject({ closable: false, webPreferences: { sandbox: true, contextIsolation: true, nodeIntegration: false } }); // prettier-ignore
    expect(window.options.webPreferences).not.toHaveProperty('preload');
    expect(window.progress).toBe(2);
    shell.app.emit('will-quit', { preventDefault: () => undefined }); // A second quit by the person.
    vi.advanceTimersByTime(1_000);
    expect(shell.windows).toEqual([window]);
    desk.says({ kind: 'closed' });
    await expect.poll(() => shell.ended).toBe(0);
    expect(window.destroyed).toBe(true);
    expect(desk.sent.filter((kind) => kind === 'close')).toHaveLength(1);
  });

  it('asks after a minute whether to keep waiting, and quits if the person says so', async () => {
    const { shell } = await quitting();
    shell.answers.push(0, 1);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(shell.dialogs.map(({ buttons }) => buttons)).toEqual([['Keep waiting', 'Quit now']]);
    expect(shell.ended).toBe(null);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(shell.dialogs).toHaveLength(2);
    await expect.poll(() => shell.ended).toBe(0);
  });

  it('does not wait for a desk that has ended', async () => {
    const { shell, desk } = await quitting();
    vi.useRealTimers();
    desk.kill();
    await expect.poll(() => shell.ended).toBe(0);
  });

  it('does not wait for a desk that was already gone', async () => {
    const shell = await opened();
    for (let n = 0; n < 3; n += 1) {
      if (n === 2) shell.boxes.stand = 1; // The message that the desk stopped repeatedly.
      shell.desks[n]?.crash();
      await expect.poll(() => shell.dialogs.length, { timeout: 10_000 }).toBe(n + 1);
    }
    windowOf(shell).close();
    await expect.poll(() => shell.ended, { timeout: 3_000 }).toBe(0);
  });

  it('continues if the desk cannot be told to close', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened();
    const [desk] = shell.desks;
    if (!desk) throw new Error('No desk');
    vi.spyOn(desk, 'postMessage').mockImplementation(() => {
      throw new Error('no pipe');
    });
    shell.powerMonitor.emit('shutdown', { preventDefault: () => undefined });
    await expect.poll(() => shell.ended, { timeout: 3_000 }).toBe(0);
    told.mockRestore();
  });

  it('opens no window if it begins while the book is still being opened', async () => {
    const shell = await started();
    let windows = 0;
    shell.app.on('browser-window-created', () => (windows += 1));
    // The small window of a slow closing never falls due, however long this computer takes.
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    shell.powerMonitor.emit('shutdown', { preventDefault: () => undefined });
    await expect.poll(() => shell.ended, { timeout: 10_000 }).toBe(0);
    expect(windows).toBe(0);
  });

  it('begins when the parent process was killed', async () => {
    const start = spawnSync(process.execPath, ['-e', '']); // It has ended by now.
    vi.stubEnv('GAMBREL_PARENT', String(start.pid));
    const shell = await opened();
    await expect.poll(() => shell.ended, { timeout: 5_000 }).toBe(0);
    expect(shell.desks[0]?.sent.at(-1)).toBe('close');
    vi.unstubAllEnvs();
  });

  it('shows nothing when the book closes immediately', async () => {
    const shell = await opened();
    await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    const window = windowOf(shell);
    window.close();
    await expect.poll(() => shell.ended).toBe(0);
    expect([shell.windows, shell.dialogs]).toEqual([[], []]);
  });
});
