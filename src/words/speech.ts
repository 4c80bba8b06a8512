/** Which language this process speaks, and how it writes numbers and days. The two are apart: a shop chooses each. */
import { SOURCE_LANGUAGE, type Language } from './languages.ts';

/** Writes what a message asks for: `{grams, number, mass}` calls `mass`, `{day, date, longDay}` calls `longDay`. */
export interface Writer {
  /** The mark before decimals. */
  readonly decimal: string;
  number(value: number): string;
  mass(grams: number): string;
  share(fraction: number): string;
  money(minor: number): string;
  aboutMoney(minor: number): string;
  day(date: string): string;
  monthDay(date: string): string;
  month(month: string): string;
  longDay(date: string): string;
  wholeDay(date: string): string;
}

/** A message with tags such as `<b>`: texts, and tagged parts that hold texts and parts again. */
export type Rich = readonly (string | { readonly tag: string; readonly of: Rich })[];
export type Message = string | ((values: never, writer?: Writer) => string | Rich);
/** The messages of one area by their whole key. */
export type Messages = Readonly<Record<string, Message>>;

const unknownFormat = (): never => {
  throw new Error('A message writes a weight, money or a day, and this process has no format for it.');
};
const plainWriter: Writer = {
  decimal: '.',
  number: String,
  mass: unknownFormat,
  share: unknownFormat,
  money: unknownFormat,
  aboutMoney: unknownFormat,
  day: unknownFormat,
  monthDay: unknownFormat,
  month: unknownFormat,
  longDay: unknownFormat,
  wholeDay: unknownFormat,
};

interface Speech {
  language: () => Language;
  writer: () => Writer;
}

const speech: Speech = { language: () => SOURCE_LANGUAGE, writer: () => plainWriter };
const loaded = new Map<Language, Readonly<Record<string, Messages>>>();

/**
 * Sets what every message asks when it is read. In the window both are reactive, so that a message in a template is
 * rendered again when one of them changes.
 */
export function speakWith(asked: Partial<Speech>): void {
  Object.assign(speech, asked);
}

/** The writer of this process: the default of a message's second parameter. */
export function writer(): Writer {
  return speech.writer();
}

export function currentLanguage(): Language {
  return speech.language();
}

/** Keeps words of a language, by area, beside those kept before. */
export function keepLanguage(language: Language, words: Readonly<Record<string, Messages>>): void {
  loaded.set(language, { ...loaded.get(language), ...words });
}

/** Whether the words of a language can be read at once. */
export function isLoaded(language: Language): boolean {
  return language === SOURCE_LANGUAGE || loaded.has(language);
}

/** One message in a language; `source` holds where the language does not say it. */
export function messageIn(language: Language, area: string, key: string, source: Messages): Message {
  const own = language === SOURCE_LANGUAGE ? undefined : loaded.get(language)?.[area]?.[key];
  return own ?? source[key] ?? key;
}
