/** The window of the built shell appears even if expected events of the runtime are missing. */
import { describe, expect, it, vi } from 'vitest';
import { click, opened, started, windowOf } from './running.ts';

const soon = { timeout: 10_000 };

describe('the window', () => {
  it('appears if a hidden one is never drawn, as under Wayland', async () => {
    const shell = await opened({ withheld: ['ready-to-show'] });
    expect(windowOf(shell).shows).toBe(1);
  });

  it('appears after three seconds without any event of the runtime', async () => {
    const shell = await started({ withheld: ['ready-to-show', 'did-finish-load'] });
    await expect.poll(() => windowOf(shell).contents.loads, soon).toBe(1);
    expect(windowOf(shell).shown).toBe(false);
    await expect.poll(() => windowOf(shell).shown, soon).toBe(true);
    expect(windowOf(shell).shows).toBe(1);
  });

  it('appears once with all events, and does not come to the front after a reload', async () => {
    const shell = await opened();
    windowOf(shell).contents.reload();
    await expect.poll(() => windowOf(shell).contents.loads).toBe(2);
    expect(windowOf(shell).shows).toBe(1);
  });

  it('is shown by a second start', async () => {
    const shell = await started({ withheld: ['ready-to-show', 'did-finish-load'] });
    await expect.poll(() => shell.windows.length, soon).toBe(1);
    shell.startAgain();
    await expect.poll(() => windowOf(shell).shown, { timeout: 1_500 }).toBe(true);
  });

  it('appears with a message when its page cannot be loaded', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened({ rejects: { loadURL: new Error('ERR_FAILED (-2) loading app://gambrel/') } });
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^The window could not be loaded\. .*Your book is not affected\.$/); // prettier-ignore
    expect(told).toHaveBeenCalledWith('Gambrel: window-not-loaded.', expect.any(Error));
    told.mockRestore();
  });

  it('reports nothing when another page replaced one that was loading', async () => {
    const aborted = Object.assign(new Error('ERR_ABORTED (-3) loading'), { code: 'ERR_ABORTED', errno: -3 });
    const shell = await opened({ rejects: { loadURL: aborted } });
    click(shell, '&About Gambrel');
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(shell.dialogs).toEqual([]);
  });

  it('reports when its page cannot be loaded again', async () => {
    const rejects: { loadURL?: Error } = {};
    const shell = await opened({ rejects });
    rejects.loadURL = new Error('ERR_FAILED (-2) loading app://gambrel/');
    windowOf(shell).contents.reload();
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^The window could not be loaded\./);
    expect(shell.dialogs).toHaveLength(1);
  });

  it('treats a missing page as a failed load', async () => {
    const shell = await opened();
    await expect(windowOf(shell).contents.open('app://gambrel/gone.html')).rejects.toThrow(/ERR_FAILED/);
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^The window could not be loaded\./);
  });
});
