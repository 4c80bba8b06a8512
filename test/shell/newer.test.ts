/** Newer versions: nothing is checked until a folder is chosen, and then only there. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newestInstaller } from '../../electron/installer-names.ts';
import { click, noteOf, opened, started, windowOf } from './running.ts';

/** Installers of this system in a folder, chosen or not. */
function shelf(names: string[], chosen: boolean) {
  return (folder: string) => {
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    for (const name of names) writeFileSync(join(stick, name), '');
    if (chosen) writeFileSync(join(folder, 'newer-versions.json'), JSON.stringify({ folder: stick }));
  };
}
const system = { win32: 'win', darwin: 'mac' }[process.platform as string] ?? 'linux';
const NEWER = `Gambrel-0.2.0-${system}-x64.${{ win: 'exe', mac: 'dmg' }[system] ?? 'AppImage'}`;

describe('a newer version', () => {
  it('is not checked for by default', async () => {
    const shell = await opened({ prepare: shelf([NEWER], false) });
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(shell.dialogs).toEqual([]);
  });

  it('in the chosen folder is reported at the start and shown', async () => {
    const shell = await started({ prepare: shelf([NEWER], true) });
    shell.answers.push(1);
    await expect.poll(() => shell.shownFiles).toEqual([join(shell.folder, 'stick', NEWER)]);
    expect(shell.dialogs[0]?.message).toMatch(/^Gambrel 0\.2\.0 is in .*; this is 0\.1\.0\./);
  });

  it('is checked for when the folder is chosen, and no longer when the person turns it off', async () => {
    const shell = await opened({ prepare: shelf([NEWER.replace('0.2.0', '0.1.0')], false) });
    const stick = join(shell.folder, 'stick');
    shell.answers.push(1, 2);
    shell.picks.push(stick);
    click(shell, '&Newer versions…');
    await expect.poll(() => shell.dialogs[1]?.message).toBe(`${stick} has no version newer than this one.`);
    expect(noteOf(shell, 'newer-versions')).toEqual({ folder: stick });
    click(shell, '&Newer versions…');
    await expect.poll(() => noteOf(shell, 'newer-versions')).toEqual({});
    expect(shell.dialogs[2]?.message).toContain(`looks for newer versions in ${stick} when it starts`);
  });

  it('is asked about without a folder when the window was closed during the question', async () => {
    const shell = await opened();
    shell.boxes.stand = 1;
    click(shell, '&Newer versions…');
    windowOf(shell).close();
    shell.answerStanding(1);
    await expect.poll(() => shell.ended).toBe(0);
    expect([shell.dialogs.length, shell.files]).toEqual([1, []]);
  });
});

describe('the newest installer', () => {
  it('is reported by number, for this system, and only if it is newer', () => {
    const names = ['Gambrel-0.9.0-win-x64.exe', 'Gambrel-0.10.0-win-x64.exe', 'Gambrel-1.0.0-mac-arm64.dmg', 'notes.txt', 'Gambrel-2.0.0-beta-win-x64.exe', 'Gambrel-9.9.9-win-x64.exe.blockmap']; // prettier-ignore
    expect(newestInstaller(names, 'win32', '0.9.1')).toEqual({
      file: 'Gambrel-0.10.0-win-x64.exe',
      version: '0.10.0',
    });
    expect(newestInstaller(names, 'win32', '0.10.0')).toBe(null);
    expect(newestInstaller(names, 'win32', '0.11.0')).toBe(null);
    expect(newestInstaller(names, 'darwin', '0.1.0')?.version).toBe('1.0.0');
    expect(newestInstaller(names, 'linux', '0.1.0')).toBe(null);
  });
});
