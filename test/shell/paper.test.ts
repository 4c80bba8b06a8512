/** Output of the built shell: printed pages, labels on their printer, and saved files. */
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { Booted } from './boot.ts';
import { click, note, noteOf, opened, windowOf } from './running.ts';

const OFFICE = { name: 'office_laser', displayName: 'Office', description: '', options: {} };
const ROLL = { name: 'roll-102', displayName: 'roll-102', description: '', options: {} };

const withPrinters = async (prepare?: (folder: string) => void): Promise<Booted> => {
  const shell = await opened({ prepare });
  windowOf(shell).contents.printers = [OFFICE, ROLL];
  return shell;
};
const PAPER = { width: 101.6, height: 76.2 };
/** The print options for that paper: microns, without margins. */
const LAID_OUT = {
  pageSize: { width: 101_600, height: 76_200 },
  margins: { marginType: 'none' },
  printBackground: true,
};
const printLabels = (shell: Booted, paper: object = PAPER) =>
  (windowOf(shell).contents.page?.window['gambrel'] as { printLabels(paper: object): void }).printLabels(
    paper,
  );

describe('labels', () => {
  it('use the dialog until a printer was chosen, then that printer, also after a restart', async () => {
    const shell = await withPrinters();
    const { contents } = windowOf(shell);
    printLabels(shell);
    await expect.poll(() => contents.prints).toEqual([LAID_OUT]);
    shell.answers.push(1);
    click(shell, '&Label printer…');
    await expect.poll(() => noteOf(shell, 'label-printer')).toEqual({ name: 'roll-102' });
    expect(shell.dialogs[0]?.buttons).toEqual([
      'Office (office_laser)',
      'roll-102',
      'Ask each time',
      'Cancel',
    ]);
    const silent = { ...LAID_OUT, silent: true, deviceName: 'roll-102' };
    printLabels(shell);
    await expect.poll(() => contents.prints[1]).toEqual(silent);

    const next = await withPrinters(note('label-printer', { name: 'roll-102' }));
    printLabels(next);
    await expect.poll(() => windowOf(next).contents.prints).toEqual([silent]);
  });

  it('ask again on request, and change nothing on cancel', async () => {
    const shell = await withPrinters(note('label-printer', { name: 'roll-102' }));
    shell.answers.push(3, 2);
    click(shell, '&Label printer…');
    await expect.poll(() => shell.dialogs.length).toBe(1);
    expect(shell.dialogs[0]).toMatchObject({ buttons: [ROLL.name, 'Office (office_laser)', 'Ask each time', 'Cancel'], cancelId: 3 }); // prettier-ignore
    expect(noteOf(shell, 'label-printer')).toEqual({ name: 'roll-102' });
    click(shell, '&Label printer…');
    await expect.poll(() => noteOf(shell, 'label-printer')).toEqual({});
    printLabels(shell);
    await expect.poll(() => windowOf(shell).contents.prints).toEqual([LAID_OUT]);
  });

  it('are not sent to another printer when theirs is missing', async () => {
    const shell = await withPrinters(note('label-printer', { name: 'gone' }));
    printLabels(shell);
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^Nothing was printed: the label printer, gone, is not connected/); // prettier-ignore
    expect(windowOf(shell).contents.prints).toEqual([]);
  });

  it('are printed only for our own page', async () => {
    const shell = await withPrinters(note('label-printer', { name: 'roll-102' }));
    for (const frame of [{ url: 'https://example.org/#app://gambrel/' }, null]) {
      shell.frame = frame;
      printLabels(shell);
    }
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(windowOf(shell).contents.prints).toEqual([]);
  });

  it("of an invalid paper size use the dialog, on the printer's paper", async () => {
    const shell = await withPrinters(note('label-printer', { name: 'roll-102' }));
    for (const paper of [
      {},
      { width: 100 },
      { width: 'wide', height: 50 },
      { width: NaN, height: 50 },
      { width: 1, height: 50 },
    ])
      // prettier-ignore
      printLabels(shell, paper);
    await expect.poll(() => windowOf(shell).contents.papers).toEqual(Array(5).fill('of the printer'));
    expect(windowOf(shell).contents.prints[0]).not.toHaveProperty('silent');
  });

  it('need a printer that the computer knows', async () => {
    const shell = await opened();
    click(shell, '&Label printer…');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^This computer has no printer/);
  });
});

it("print a page on the printer's paper, not on A4", async () => {
  const shell = await opened();
  click(shell, '&Print…');
  expect(windowOf(shell).contents.papers).toEqual(['of the printer']);
});

it('report a page that cannot be printed, from the menu too', async () => {
  const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const shell = await opened();
  vi.spyOn(windowOf(shell).contents, 'print').mockImplementation(() => {
    throw new TypeError('Invalid print settings');
  });
  click(shell, '&Print…');
  await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^Gambrel could not do that\./);
  told.mockRestore();
});

describe('a window that is closed meanwhile', () => {
  /** A promise that the test settles. */
  function held<T>() {
    return Promise.withResolvers<T>();
  }

  it('prints no labels, without a message', async () => {
    const shell = await withPrinters(note('label-printer', { name: 'roll-102' }));
    const window = windowOf(shell);
    const printers = held<(typeof ROLL)[]>();
    vi.spyOn(window.contents, 'getPrintersAsync').mockReturnValue(printers.promise);
    printLabels(shell);
    window.close();
    printers.resolve([ROLL]);
    await expect.poll(() => shell.ended).toBe(0);
    expect([window.contents.prints, shell.dialogs]).toEqual([[], []]);
  });

  it('is not asked where to save its PDF', async () => {
    const shell = await opened();
    const window = windowOf(shell);
    const pdf = held<Buffer<ArrayBuffer>>();
    vi.spyOn(window.contents, 'printToPDF').mockReturnValue(pdf.promise);
    click(shell, '&Save as PDF…');
    window.close();
    pdf.resolve(Buffer.from('%PDF-1.7'));
    await expect.poll(() => shell.ended).toBe(0);
    expect([shell.files, shell.dialogs]).toEqual([[], []]);
  });

  it('reports nothing about a canceled PDF', async () => {
    const shell = await opened();
    const window = windowOf(shell);
    const pdf = held<Buffer<ArrayBuffer>>();
    vi.spyOn(window.contents, 'printToPDF').mockReturnValue(pdf.promise);
    click(shell, '&Save as PDF…');
    window.close();
    pdf.reject(new Error('Failed to generate PDF: web contents destroyed'));
    await expect.poll(() => shell.ended).toBe(0);
    expect(shell.dialogs).toEqual([]);
  });
});

describe('a PDF', () => {
  it('is rendered on the paper of the page, and saved in the chosen place', async () => {
    const shell = await opened();
    const path = join(shell.folder, 'bill.pdf');
    shell.picks.push(path, null);
    click(shell, '&Save as PDF…');
    await expect.poll(() => existsSync(path) && readFileSync(path, 'latin1')).toBe('%PDF-1.7');
    expect(shell.files[0]).toMatchObject({ kind: 'save', filters: [{ name: 'PDF', extensions: ['pdf'] }] });
    expect(shell.files[0]?.defaultPath).toMatch(/documents[\\/]Gambrel \d{4}-\d\d-\d\d\.pdf$/);
    await expect.poll(() => noteOf(shell, 'saving')).toEqual({ folder: shell.folder });
    click(shell, '&Save as PDF…');
    await expect.poll(() => shell.files[1]?.defaultPath).toContain(join(shell.folder, 'Gambrel '));
    expect(shell.dialogs).toEqual([]);
  });

  it('reports a failure to write or render', async () => {
    const shell = await opened();
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const path = join(shell.folder, 'folder.pdf');
    mkdirSync(path);
    shell.picks.push(path);
    click(shell, '&Save as PDF…');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/folder\.pdf could not be saved\. Check that/);
    windowOf(shell).contents.pdf = null;
    click(shell, '&Save as PDF…');
    await expect.poll(() => shell.dialogs[1]?.message).toMatch(/^The page could not be turned into a PDF/);
    expect(shell.files).toHaveLength(1);
    told.mockRestore();
  });
});

describe('a file that the window saves', () => {
  it('is offered in the last used folder, under its name only', async () => {
    const shell = await opened();
    const documents = join(shell.folder, 'documents');
    expect(shell.download('season.csv', '/stick/papers/season.csv', 'completed')).toEqual({
      title: 'Save',
      defaultPath: join(documents, 'season.csv'),
    });
    expect(shell.download('../../evil.csv', '/other/evil.csv', 'cancelled').defaultPath).toBe(
      join('/stick/papers', 'evil.csv'),
    );
    expect(noteOf(shell, 'saving')).toEqual({ folder: '/stick/papers' });
    expect(shell.dialogs).toEqual([]);
  });

  it('is offered in the home folder if the system has no documents folder', async () => {
    const shell = await opened({ noFolder: 'documents' });
    expect(shell.download('season.csv', '/stick/season.csv', 'cancelled').defaultPath).toBe(
      join(homedir(), 'season.csv'),
    );
  });

  it('reports a failed write', async () => {
    const shell = await opened();
    shell.download('season.csv', '/full/season.csv', 'interrupted');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^\/full\/season\.csv could not be saved/);
  });
});
