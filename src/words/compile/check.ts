/** Compares each translation with the source: areas, keys, placeholders and select options. */
import { languageLines, SOURCE_LANGUAGE } from '../languages.ts';
import type { AreaFile, Catalogue, Entry } from './catalogue.ts';
import type { Value } from './message.ts';

/** All that is wrong with a catalogue, as sentences that name file and key. */
export function catalogueFaults(catalogue: Catalogue): string[] {
  const source = catalogue.languages.get(SOURCE_LANGUAGE) ?? new Map<string, AreaFile>();
  const faults = [...catalogue.faults];
  for (const [language, areas] of catalogue.languages) {
    if (language === SOURCE_LANGUAGE) continue;
    faults.push(...languageFaults(areas, source, languageLines[language]?.over !== undefined));
  }
  return faults;
}

/** What finished languages lack. A build says it in English meanwhile; `npm run check:words` fails. */
export function missingMessages({ languages }: Catalogue): string[] {
  const source = languages.get(SOURCE_LANGUAGE) ?? new Map<string, AreaFile>();
  return [...languages]
    .filter(([language]) => !languageLines[language]?.over && !languageLines[language]?.draft)
    .flatMap(([language, areas]) => gaps(language, areas, source));
}

/** The languages that a window may choose: the finished ones, and drafts that lack nothing. */
export function offeredLanguages({ languages }: Catalogue): string[] {
  const source = languages.get(SOURCE_LANGUAGE) ?? new Map<string, AreaFile>();
  return [...languages]
    .filter(
      ([language, areas]) => !languageLines[language]?.draft || gaps(language, areas, source).length === 0,
    )
    .map(([language]) => language);
}

/** What a language lacks: whole areas and single keys. */
export function gaps(
  language: string,
  areas: ReadonlyMap<string, AreaFile>,
  source: ReadonlyMap<string, AreaFile>,
): string[] {
  return [...source].flatMap(([name, of]) => {
    const area = areas.get(name);
    if (!area)
      return `${language}/${name}.arb: this language lacks the area ${name}. Translate ${SOURCE_LANGUAGE}/${name}.arb.`;
    return [...of.keys]
      .filter((key) => !area.keys.has(key))
      .map((key) => `${area.file}, ${key}: this key is missing. Translate it from ${of.file}.`);
  });
}

/**
 * What is wrong in the files of a language; for what it lacks see `gaps`.
 * @param variant an overlay: it holds only what differs
 */
export function languageFaults(
  areas: ReadonlyMap<string, AreaFile>,
  source: ReadonlyMap<string, AreaFile>,
  variant: boolean,
): string[] {
  const faults: string[] = [];
  for (const [name, area] of areas) {
    const of = source.get(name);
    if (of) faults.push(...areaFaults(area, of, variant));
    else faults.push(`${area.file}: ${SOURCE_LANGUAGE} has no such area. Remove the file, or rename it.`);
  }
  return faults;
}

function areaFaults(area: AreaFile, source: AreaFile, variant: boolean): string[] {
  const faults: string[] = [];
  for (const key of area.keys) {
    if (!source.keys.has(key))
      faults.push(`${area.file}, ${key}: ${source.file} has no such key. Remove it, or correct its name.`);
  }
  for (const [key, entry] of area.entries) {
    const of = source.entries.get(key);
    if (!of) continue;
    faults.push(...entryFaults(entry, of).map((fault) => `${area.file}, ${key}: ${fault}`));
    if (variant && entry.text === of.text)
      faults.push(`${area.file}, ${key}: it says the same as ${source.file}. Remove it here.`);
  }
  return faults;
}

function entryFaults(entry: Entry, source: Entry): string[] {
  const faults: string[] = [];
  for (const name of entry.values.keys()) {
    if (!source.values.has(name))
      faults.push(`the placeholder {${name}} is unknown. Use only those of the source.`);
  }
  for (const [name, value] of source.values) {
    const own = entry.values.get(name);
    if (own) faults.push(...valueFaults(name, own, value));
    else faults.push(`the placeholder {${name}} is missing. Put it where it belongs.`);
  }
  for (const tag of symmetric(entry.tags, source.tags))
    faults.push(`the tag <${tag}> must stand in the translation and in the source, or in neither.`);
  return faults;
}

function valueFaults(name: string, own: Value, source: Value): string[] {
  if (own.kind !== source.kind)
    return [`{${name}} is used as ${own.kind}, and in the source as ${source.kind}. Use it as there.`];
  return [
    ...[...own.options]
      .filter((option) => !source.options.has(option))
      .map((option) => `{${name}} has the option “${option}”, which the source does not have. Remove it.`),
    ...[...source.options]
      .filter((option) => !own.options.has(option))
      .map((option) => `{${name}} lacks the option “${option}”. Add it.`),
  ];
}

function symmetric(a: ReadonlySet<string>, b: ReadonlySet<string>): string[] {
  return [...[...a].filter((one) => !b.has(one)), ...[...b].filter((one) => !a.has(one))];
}
