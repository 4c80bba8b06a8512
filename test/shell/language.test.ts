/** Menus and dialogs speak the language that the window says, also at the next start. */
import { describe, expect, it } from 'vitest';
import { click, note, noteOf, opened, windowOf } from './running.ts';

const labels = (shell: Awaited<ReturnType<typeof opened>>): (string | undefined)[] =>
  shell.menu.map(({ label }) => label);
const ENGLISH = ['&File', '&Edit', '&View', '&Window', '&Help'];

/** What the page says through the preload. */
function say(shell: Awaited<ReturnType<typeof opened>>, language: string): void {
  const { gambrel } = windowOf(shell).contents.page?.window as unknown as {
    gambrel: { speak(language: string): void };
  };
  gambrel.speak(language);
}

describe('the language of the shell', () => {
  it('is that of its window, in the menu and in dialogs', async () => {
    const shell = await opened();
    expect(labels(shell)).toEqual(ENGLISH);
    say(shell, 'qps');
    await expect.poll(() => labels(shell)[0]).toMatch(/^\[&Ƒ/u);
    expect(noteOf(shell, 'language')).toEqual({ language: 'qps' });
    const back = shell.menu
      .flatMap(({ submenu }) => submenu ?? [])
      .find(({ accelerator }) => accelerator === 'CmdOrCtrl+B');
    click(shell, back?.label ?? '');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^\[ÅÅ/u);
    say(shell, 'en-US');
    await expect.poll(() => labels(shell)).toEqual(ENGLISH);
  });

  it('is that of the last window until a window says one', async () => {
    const shell = await opened({ prepare: note('language', { language: 'qps' }) });
    expect(labels(shell)[0]).toMatch(/^\[&Ƒ/u);
  });

  it('stays when a page says something else, or the note is spoilt', async () => {
    const shell = await opened({ prepare: note('language', { language: 'klingon' }) });
    say(shell, 'klingon');
    say(shell, '../../etc');
    expect(labels(shell)).toEqual(ENGLISH);
    expect(noteOf(shell, 'language')).toEqual({ language: 'klingon' });
  });
});
