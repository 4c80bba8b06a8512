/** A small catalogue on disk, and the faults found in it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { readCatalogue, readLanguage, type AreaFile } from '../../../src/words/compile/catalogue.ts';
import { gaps, languageFaults } from '../../../src/words/compile/check.ts';

type Lines = Readonly<Record<string, unknown>>;

/** Writes files, each as text or as the messages of its language. */
export function catalogueFolder(files: Readonly<Record<string, Lines | string>>): string {
  const root = mkdtempSync(join(tmpdir(), 'gambrel-words-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  for (const [file, lines] of Object.entries(files)) {
    const path = join(root, file);
    mkdirSync(dirname(path), { recursive: true });
    const [language] = file.split('/');
    const text =
      typeof lines === 'string' ? lines : JSON.stringify({ '@@locale': language, ...lines }, null, 2);
    writeFileSync(path, text);
  }
  return root;
}

/** What is wrong in files of en-US alone. */
export function sourceFaults(files: Readonly<Record<string, Lines | string>>): string[] {
  return readCatalogue(catalogueFolder(files)).faults;
}

/** What is wrong in a translation of one area into a language that need not be one of the program's. */
export function translationFaults(
  source: Lines,
  language: string,
  translated: Lines | null,
  variant = false,
): string[] {
  const root = catalogueFolder({
    'en-US/shop.arb': source,
    [`${language}/${translated ? 'shop' : 'other'}.arb`]: translated ?? { a: 'b' },
  });
  const faults: string[] = [];
  const areas = (of: string): Map<string, AreaFile> => readLanguage(root, of, faults);
  const own = areas(language);
  const english = areas('en-US');
  return [
    ...faults,
    ...languageFaults(own, english, variant),
    ...(variant ? [] : gaps(language, own, english)),
  ];
}
