/** Finds messages that nothing reads. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SOURCE_LANGUAGE } from '../languages.ts';
import type { AreaFile, Catalogue } from './catalogue.ts';

const SOURCES = ['src', 'electron'];

/**
 * The messages of en-US that no source file reads: as `.key` in a file that imports its area, through an index of its
 * group (`text.places[place]`), or by its whole key as a string, as problems are.
 * @param root the folder that holds `src` and `electron`
 */
export function unusedFaults({ languages }: Catalogue, root: string): string[] {
  const texts = SOURCES.flatMap((folder) => sourceTexts(join(root, folder)));
  const everything = texts.join('\n');
  // Pages are shown as a whole; names are looked up by the code of the thing, columns by their own.
  const areas = [...(languages.get(SOURCE_LANGUAGE) ?? [])].filter(
    ([name]) => !/^(handbook|desk\/names|desk\/book)\//.test(name),
  );
  return areas.flatMap(([name, area]) =>
    unusedOf(
      area,
      texts.filter((text) => text.includes(`words/compiled/${name}.ts'`)).join('\n'),
      everything,
    ),
  );
}

function unusedOf({ file, keys }: AreaFile, readers: string, everything: string): string[] {
  return [...keys]
    .filter((key) => !isRead(key.split('.'), readers) && !everything.includes(`'${key}'`))
    .map((key) => `${file}, ${key}: nothing reads this message. Remove it.`);
}

function isRead(steps: string[], readers: string): boolean {
  for (let length = steps.length; length > 0; length--) {
    const path = steps.slice(0, length).map(access).join('\\s*');
    // The whole path, or a group of it that is read by index or handed on as a whole.
    const end = length === steps.length ? '(?![\\w$])' : '(?!\\s*(\\??\\.|\\[[\'"])|[\\w$])';
    if (new RegExp(path + end).test(readers)) return true;
  }
  return false;
}

/** A step as `.name`, `?.name` or `['name']`. */
function access(step: string): string {
  const name = step.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return /^[\w$]+$/.test(step) ? `(?:\\.${name}|\\[['"]${name}['"]\\])` : `\\[['"]${name}['"]\\]`;
}

function sourceTexts(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|vue|mjs)$/.test(name) && !/^words[/\\]compiled/.test(name))
    .map((name) => readFileSync(join(folder, name), 'utf8'));
}
