import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { languages, SOURCE_LANGUAGE } from '../../src/words/languages.ts';

const WINDOW = fileURLToPath(new URL('../../out/renderer/assets/', import.meta.url));

const OTHER_LANGUAGES = Object.keys(languages).filter((code) => code !== SOURCE_LANGUAGE);

/** What the scripts of the window may take together with one language, in millions of bytes compressed by gzip. */
export const MOST_MB = 0.45;

/**
 * The built scripts of a window, heaviest first. The words of further languages are left out: each is a script of its
 * own (`qps-…`), of which a window fetches one at most.
 */
export function windowScripts(): { name: string; text: string; mb: number }[] {
  return readdirSync(WINDOW)
    .filter((name) => name.endsWith('.js') && !OTHER_LANGUAGES.some((code) => name.startsWith(`${code}-`)))
    .map((name) => {
      const bytes = readFileSync(join(WINDOW, name));
      return { name, text: bytes.toString('utf8'), mb: gzipSync(bytes).length / 1e6 };
    })
    .toSorted((a, b) => b.mb - a.mb);
}

/** Their compressed size together, in millions of bytes. */
export function scriptsMb(): number {
  return windowScripts().reduce((total, { mb }) => total + mb, 0);
}
