/** The words of each language, as its catalogue says them, and the texts that a message can become. */
import { join } from 'node:path';
import { TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import { readCatalogue } from '../../src/words/compile/catalogue.ts';
import type { ReadMessage } from '../../src/words/compile/message.ts';

const { languages } = readCatalogue(join(import.meta.dirname, '../../src/words'));

/** A message of one language by its area and key. */
export function messagesOf(language: string): Map<string, ReadMessage> {
  const areas = [...(languages.get(language) ?? [])];
  return new Map(
    areas.flatMap(([area, { entries }]) =>
      [...entries].map(([key, entry]) => [`${area}:${key}`, entry] as const),
    ),
  );
}

/** Addresses, and paths of files. */
const ADDRESSES = /https?:\/\/\S+|(?:\/[^/\s][^/\n]*){3,}/g;

/** The words of a text in lower case, without numbers, codes, addresses and single letters. */
export function wordsOf(text: string): string[] {
  return (
    text
      .replaceAll(ADDRESSES, ' ')
      .toLowerCase()
      .match(/(?<![\p{L}\p{N}_])\p{L}{2,}(?![\p{L}\p{N}_])/gu) ?? []
  );
}

/** Everything that a message says, its values left out. */
export function literalsOf(parts: readonly MessageFormatElement[]): string {
  return parts.map(literalOf).join(' ');
}

function literalOf(part: MessageFormatElement): string {
  if (part.type === TYPE.literal) return part.value;
  if (part.type === TYPE.tag) return literalsOf(part.children);
  if (part.type !== TYPE.select && part.type !== TYPE.plural) return ' ';
  return Object.values(part.options)
    .map(({ value }) => literalsOf(value))
    .join(' ');
}

/** The descriptions of the book's tables hold codes, which are English words. */
const CODES = 'desk/book/columns:';

function wordsOfMessages(language: string): string[] {
  const messages = [...messagesOf(language)].filter(([key]) => !key.startsWith(CODES));
  return messages.flatMap(([, { parts }]) => wordsOf(literalsOf(parts)));
}

/** Names of months and days, long and short, and of dollars. */
function wordsOfFormats(language: string): string[] {
  const dollars = new Intl.NumberFormat(language, { style: 'currency', currency: 'USD' });
  const days = (['long', 'short'] as const).flatMap((style) => {
    const format = new Intl.DateTimeFormat(language, { month: style, weekday: style });
    return Array.from({ length: 366 }, (_, day) => format.format(new Date(2026, 0, day))).flatMap(wordsOf);
  });
  return [...days, ...wordsOf(dollars.format(1))];
}

/** The words of English that this language never says. */
export function foreignWords(language: string): Set<string> {
  const own = new Set([...wordsOfMessages(language), ...wordsOfFormats(language)]);
  return new Set(wordsOfMessages('en-US').filter((word) => !own.has(word)));
}
