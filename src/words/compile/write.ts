/** Writes the compiled catalogue: a file for each area with the source's words, a file for each other language. */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { languageLines, SOURCE_LANGUAGE } from '../languages.ts';
import type { AreaFile, Catalogue } from './catalogue.ts';
import { offeredLanguages } from './check.ts';
import { codeOf, typeOf } from './print.ts';
import { pseudoMessage } from './pseudo.ts';
import type { ReadMessage } from './message.ts';

/** Areas that the window does not read: each program has those of its own in every language. */
const PROGRAMS = ['desk', 'shell'] as const;

/** Texts that are read as pages: a file of plain JSON for each language, which the window fetches when one is opened. */
const PAGES = 'handbook/pages';

type Group = Map<string, Group | { type: string; text: string; description: string }>;

/**
 * Compiles a catalogue into `folder`. A file is replaced only if its text differs, so that two programs may compile
 * at the same time and nothing is rebuilt without need.
 */
export function writeCompiled(catalogue: Catalogue, folder: string): void {
  const { languages: all } = catalogue;
  const source = all.get(SOURCE_LANGUAGE) ?? new Map<string, AreaFile>();
  const files = new Map<string, string>();
  for (const [name, area] of source) if (name !== PAGES) files.set(`${name}.ts`, areaModule(name, area));
  files.set(`${PAGES}/${SOURCE_LANGUAGE}.json`, pagesJson(readable(source).get(PAGES)));
  const others = Object.keys(languageLines).filter(
    (language) => language !== SOURCE_LANGUAGE && (languageLines[language]?.generated || all.has(language)),
  );
  for (const language of others) {
    const { over, generated } = languageLines[language] ?? {};
    // What no language says is read from the source anyway.
    const base = over === SOURCE_LANGUAGE ? undefined : all.get(over ?? '');
    const areas = generated ? pseudoAreas(source) : readable(all.get(language), base);
    const program = (name: string) => PROGRAMS.find((one) => name.startsWith(`${one}/`));
    const within = (of?: string) =>
      new Map([...areas].filter(([name]) => name !== PAGES && program(name) === of));
    files.set(`languages/${language}.ts`, languageModule(language, within()));
    const read = new Map([...(readable(source).get(PAGES) ?? []), ...(areas.get(PAGES) ?? [])]);
    files.set(`${PAGES}/${language}.json`, pagesJson(read));
    for (const of of PROGRAMS)
      files.set(`languages/${of}/${language}.ts`, languageModule(language, within(of), '../'));
  }
  files.set('languages.ts', loadersModule(others, offeredLanguages(catalogue)));
  for (const of of PROGRAMS) files.set(`languages/${of}.ts`, programModule(of, others));
  for (const [name, text] of files) replaceIfOther(join(folder, name), text);
  removeOthers(folder, files);
}

function areaModule(name: string, area: AreaFile): string {
  const up = '../'.repeat(name.split('/').length);
  return [
    heading(area.file),
    `import { area } from '${up}area.ts';`,
    `import { optionOf, sourceForm as form, sourceOrdinalForm as ordinalForm } from '${up}forms.ts';`,
    `import { writer, type Rich, type Writer } from '${up}speech.ts';`,
    `const source = ${objectOf(area.entries)};`,
    `export interface Text ${interfaceOf(grouped(area), 0)}`,
    `export const text = area<Text>(${JSON.stringify(name)}, source);`,
    '',
  ].join('\n');
}

function languageModule(
  language: string,
  areas: Map<string, Map<string, ReadMessage>>,
  up: '' | '../' = '',
): string {
  return [
    heading(language),
    `import { cardinal, optionOf, ordinal } from '${up}../../forms.ts';`,
    `import { writer, type Messages } from '${up}../../speech.ts';`,
    // The pseudo-language follows the plural rules of English.
    forms(language === 'qps' ? SOURCE_LANGUAGE : language),
    `export const words: Readonly<Record<string, Messages>> = {`,
    ...[...areas].map(([name, entries]) => `${JSON.stringify(name)}: ${objectOf(entries)},`),
    '};',
    '',
  ].join('\n');
}

/** The words of one program in every further language. */
function programModule(of: string, codes: string[]): string {
  return [
    heading('languages.ts'),
    `import type { Messages } from '../../speech.ts';`,
    ...codes.map((code, at) => `import { words as of${at} } from './${of}/${code}.ts';`),
    `export const words: Readonly<Record<string, Readonly<Record<string, Messages>>>> = {`,
    ...codes.map((code, at) => `${JSON.stringify(code)}: of${at},`),
    '};',
    '',
  ].join('\n');
}

function loadersModule(codes: string[], offered: string[]): string {
  return [
    heading('languages.ts'),
    `import type { Language } from '../languages.ts';`,
    `import type { Messages } from '../speech.ts';`,
    `type Words = { words: Readonly<Record<string, Messages>> };`,
    `/** The languages that a window may choose. */`,
    `export const offered: readonly Language[] = ${JSON.stringify(offered)};`,
    `export const loaders: Partial<Record<Language, () => Promise<Words>>> = {`,
    ...codes.map((code) => `${JSON.stringify(code)}: () => import('./languages/${code}.ts'),`),
    '};',
    '',
  ].join('\n');
}

/** Only messages without values stand on pages. */
function pagesJson(entries: ReadonlyMap<string, ReadMessage> = new Map()): string {
  const texts = [...entries].map(([key, message]) => {
    const code = codeOf(message);
    if (!/^["`]/.test(code))
      throw new Error(`${PAGES}.arb, ${key}: a page takes no values. Write plain text.`);
    return [key, JSON.parse(code) as string];
  });
  return `${JSON.stringify(Object.fromEntries(texts), null, 1)}\n`;
}

function heading(of: string): string {
  return `// @ts-nocheck\n// Compiled from src/words/${of} (npm run words).`;
}

function forms(language: string): string {
  const code = JSON.stringify(language);
  return `const form = /* @__PURE__ */ cardinal(${code});\nconst ordinalForm = /* @__PURE__ */ ordinal(${code});`;
}

function objectOf(entries: ReadonlyMap<string, ReadMessage>): string {
  const lines = [...entries].map(([key, message]) => `${JSON.stringify(key)}: ${codeOf(message)},`);
  return `{\n${lines.join('\n')}\n}`;
}

function grouped({ entries }: AreaFile): Group {
  const top: Group = new Map();
  for (const [key, entry] of entries) {
    const steps = key.split('.');
    const last = steps.pop() ?? key;
    let group = top;
    for (const step of steps) {
      const next = group.get(step);
      group = next instanceof Map ? next : (group.set(step, new Map()).get(step) as Group);
    }
    group.set(last, { type: typeOf(entry), text: entry.text, description: entry.description });
  }
  return top;
}

function interfaceOf(group: Group, depth: number): string {
  const indent = '  '.repeat(depth + 1);
  const lines = [...group].map(([name, member]) => {
    if (member instanceof Map)
      return `${indent}readonly ${JSON.stringify(name)}: ${interfaceOf(member, depth + 1)};`;
    const about = [member.text, member.description].filter(Boolean).join(' — ').replaceAll('*/', '* /');
    return `${indent}/** ${about} */\n${indent}readonly ${JSON.stringify(name)}: ${member.type};`;
  });
  return `{\n${lines.join('\n')}\n${'  '.repeat(depth)}}`;
}

function readable(
  areas: Map<string, AreaFile> = new Map(),
  base: Map<string, AreaFile> = new Map(),
): Map<string, Map<string, ReadMessage>> {
  const names = new Set([...areas.keys(), ...base.keys()]);
  return new Map(
    [...names].map((name) => [
      name,
      new Map<string, ReadMessage>([...(base.get(name)?.entries ?? []), ...(areas.get(name)?.entries ?? [])]),
    ]),
  );
}

function pseudoAreas(source: ReadonlyMap<string, AreaFile>): Map<string, Map<string, ReadMessage>> {
  return new Map(
    [...source].map(([name, { entries }]) => [
      name,
      new Map([...entries].map(([key, entry]) => [key, pseudoMessage(entry)])),
    ]),
  );
}

function replaceIfOther(path: string, text: string): void {
  if (existsSync(path) && readFileSync(path, 'utf8') === text) return;
  mkdirSync(dirname(path), { recursive: true });
  const partial = `${path}.${process.pid}.tmp`;
  writeFileSync(partial, text);
  renameSync(partial, path);
}

function removeOthers(folder: string, files: ReadonlyMap<string, string>): void {
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (/\.(ts|json)$/.test(name) && !files.has(name.split(sep).join('/')))
      rmSync(join(folder, name), { force: true });
  }
}
