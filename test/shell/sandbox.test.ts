/** Starts of the built shell whose pages would run without a sandbox. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { started } from './running.ts';

afterEach(() => void vi.unstubAllEnvs());

describe('a start without a sandbox', () => {
  it.each(['no-sandbox', 'disable-seccomp-filter-sandbox', 'single-process'])(
    'is refused with a sentence, before anything is opened: %s',
    async (name) => {
      const shell = await started({ switches: [name] });
      await expect.poll(() => shell.ended).toBe(1);
      expect(shell.dialogs.map(({ message }) => message)).toEqual([
        expect.stringMatching(
          /^Gambrel does not run without its sandbox, .*ELECTRON_DISABLE_SANDBOX.*not affected\.$/,
        ),
      ]);
      expect([shell.windows, shell.desks]).toEqual([[], []]);
    },
  );

  it('names the deb package where an AppImage may have no sandbox', async () => {
    vi.stubEnv('APPIMAGE', '/home/ann/Gambrel.AppImage');
    const shell = await started({ switches: ['no-sandbox'] });
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/install the deb package instead/);
  });

  it('ends even if that cannot be shown', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await started({
      switches: ['no-sandbox'],
      rejects: { showMessageBox: new Error('no display') },
    });
    await expect.poll(() => shell.ended).toBe(1);
    told.mockRestore();
  });
});
