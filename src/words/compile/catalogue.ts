/** Reads the message files: one ARB file (JSON with ICU messages) for each language and area. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { languageLines, SOURCE_LANGUAGE } from '../languages.ts';
import { MessageFault, readMessage, type ReadMessage } from './message.ts';

export interface Entry extends ReadMessage {
  text: string;
  /** For translators. */
  description: string;
}

/** The messages of one file that could be read. */
export interface AreaFile {
  /** Path for people, from the folder of the catalogue. */
  file: string;
  entries: Map<string, Entry>;
  /** All keys of the file, those of unreadable messages too. */
  keys: Set<string>;
}

export interface Catalogue {
  /** Area files by language, then by area such as `window/backup`. */
  languages: Map<string, Map<string, AreaFile>>;
  /** What is wrong with single files, as sentences with file and key. */
  faults: string[];
}

/** @param root the folder with a folder for each language */
export function readCatalogue(root: string): Catalogue {
  const catalogue: Catalogue = { languages: new Map(), faults: [] };
  for (const [language, line] of Object.entries(languageLines)) {
    if (line.generated) continue;
    // A variant without a folder says nothing else, and a translation may not have begun.
    if ((line.draft || line.over) && !existsSync(join(root, language))) continue;
    catalogue.languages.set(language, readLanguage(root, language, catalogue.faults));
  }
  const strangers = readdirSync(root, { withFileTypes: true }).filter(
    (one) =>
      one.isDirectory() && /^[a-z]{2,3}(-|$)/.test(one.name) && !Object.hasOwn(languageLines, one.name),
  );
  for (const { name } of strangers)
    catalogue.faults.push(`${name}: this folder is no language of languages.ts. Add the language there.`);
  return catalogue;
}

/** The areas of one language, by name. */
export function readLanguage(root: string, language: string, faults: string[]): Map<string, AreaFile> {
  const folder = join(root, language);
  if (!existsSync(folder)) {
    faults.push(`${language}: this language has no folder. Add ${language}/ with its files.`);
    return new Map();
  }
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.arb'),
  );
  return new Map(
    files.sort().map((name) => {
      const path = join(folder, name);
      const area = name.slice(0, -'.arb'.length).split(sep).join('/');
      return [
        area,
        readArea(readFileSync(path, 'utf8'), relative(root, path).split(sep).join('/'), language, faults),
      ];
    }),
  );
}

/** Reads the text of one file; what is wrong goes to `faults`. */
export function readArea(text: string, file: string, language: string, faults: string[]): AreaFile {
  const area: AreaFile = { file, entries: new Map(), keys: new Set() };
  const lines = parsedLines(text, file, faults);
  for (const key of repeatedKeys(text))
    faults.push(`${file}, ${key}: this key stands there twice. Remove one.`);
  if (lines['@@locale'] !== language)
    faults.push(`${file}: "@@locale" must be "${language}". Write it as the first line.`);
  for (const [key, line] of Object.entries(lines)) {
    if (key.startsWith('@')) continue;
    area.keys.add(key);
    if (typeof line !== 'string' || line.trim() === '')
      faults.push(`${file}, ${key}: this message is empty. Write it, or remove the key.`);
    else readEntry(area, key, line, language, descriptionOf(lines[`@${key}`]), faults);
  }
  for (const key of Object.keys(lines)) {
    if (/^@[^@]/.test(key) && !area.keys.has(key.slice(1)))
      faults.push(`${file}, ${key}: it describes a key that is not there. Remove it.`);
  }
  for (const key of area.keys) {
    const group = [...area.keys].find((other) => other.startsWith(`${key}.`));
    if (group && area.file.startsWith(SOURCE_LANGUAGE))
      faults.push(`${file}, ${key}: it is a message and the group of ${group}. Rename one.`);
  }
  return area;
}

function readEntry(
  { file, entries }: AreaFile,
  key: string,
  text: string,
  language: string,
  description: string,
  faults: string[],
): void {
  try {
    entries.set(key, { ...readMessage(text, language), text, description });
  } catch (error) {
    if (!(error instanceof MessageFault)) throw error;
    faults.push(`${file}, ${key}: ${error.message}. Correct the message.`);
  }
}

function parsedLines(text: string, file: string, faults: string[]): Record<string, unknown> {
  try {
    return JSON.parse(text) as Record<string, unknown>;
  } catch (error) {
    faults.push(`${file}: this is not valid JSON (${(error as Error).message}).`);
    return {};
  }
}

/** JSON takes the last of equal keys without a word. Messages lie in the outermost object, two spaces deep. */
function repeatedKeys(text: string): string[] {
  const keys = [...text.matchAll(/^ {2}("(?:[^"\\]|\\.)*"):/gm)].map(([, key]) => key ?? '');
  return [...new Set(keys.filter((key, at) => keys.indexOf(key) !== at))].map((key) =>
    String(JSON.parse(key)),
  );
}

function descriptionOf(about: unknown): string {
  const description = (about as { description?: unknown } | undefined)?.description;
  return typeof description === 'string' ? description : '';
}
