import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { languages, SOURCE_LANGUAGE } from '../../src/words/languages.ts';

const WINDOW = fileURLToPath(new URL('../../out/renderer/assets/', import.meta.url));

const OTHER_LANGUAGES = Object.keys(languages).filter((code) => code !== SOURCE_LANGUAGE);

/** What the scripts of the window may take together with one language, in millions of bytes compressed by gzip. */
export const MOST_MB = 0.45;

/** The same of a station, with the screens of all places, in one language. */
export const MOST_STATION_MB = 0.3;
/** Scripts of the page of stations (electron/packaging/station-build.ts). */
const STATION = 'station-';

interface Script {
  name: string;
  text: string;
  mb: number;
}

/**
 * The built scripts of a window, heaviest first. The words of further languages are left out: each is a script of its
 * own (`qps-…`), of which a window fetches one at most. So are those of stations, which are built apart: nothing of the
 * window's build refers to them.
 */
export function windowScripts(): Script[] {
  return scripts((name) => !name.startsWith(STATION));
}

/** The built scripts of the page of stations, heaviest first, without further languages. */
export function stationScripts(): Script[] {
  return scripts((name) => name.startsWith(STATION));
}

function scripts(wanted: (name: string) => boolean): Script[] {
  const isLanguage = (name: string) =>
    OTHER_LANGUAGES.some((code) => name.replace(STATION, '').startsWith(`${code}-`));
  return readdirSync(WINDOW)
    .filter((name) => name.endsWith('.js') && !isLanguage(name) && wanted(name))
    .map((name) => {
      const bytes = readFileSync(join(WINDOW, name));
      return { name, text: bytes.toString('utf8'), mb: gzipSync(bytes).length / 1e6 };
    })
    .toSorted((a, b) => b.mb - a.mb);
}

/** The compressed size of the window's scripts together, in millions of bytes. */
export function scriptsMb(of = windowScripts()): number {
  return of.reduce((total, { mb }) => total + mb, 0);
}
