/** Makes the object through which the program reads an area's messages. */
import type { Language } from './languages.ts';
import { currentLanguage, messageIn, type Message, type Messages } from './speech.ts';

interface Origin {
  name: string;
  source: Messages;
}

const origins = new WeakMap<object, Origin>();

/**
 * An area's messages as nested getters: the key `places.rail` is read as `text.places.rail`. Each read takes the
 * message of the language of that moment, so keep the object, not what was read from it.
 */
export function area<Text extends object>(name: string, source: Messages): Text {
  return viewOf<Text>({ name, source }, currentLanguage);
}

/** The same messages in one language, such as that of a hunter's papers. It must be loaded (`loadLanguage`). */
export function inLanguage<Text extends object>(text: Text, language: Language): Text {
  return viewOf<Text>(originOf(text), () => language);
}

/** The message with a whole key, which may be known only at run time, such as a problem's code. */
export function messageOf(text: object, key: string): Message | undefined {
  const { name, source } = originOf(text);
  return Object.hasOwn(source, key) ? messageIn(currentLanguage(), name, key, source) : undefined;
}

/**
 * The messages of an area that take no values, by their whole key, in one language. It must be loaded; what it lacks is said in the
 * source language.
 */
export function textsOf(text: object, language: Language): Map<string, string> {
  const { name, source } = originOf(text);
  const texts = Object.keys(source).map((key) => [key, messageIn(language, name, key, source)] as const);
  return new Map(texts.filter((one): one is readonly [string, string] => typeof one[1] === 'string'));
}

/** All whole keys of an area. */
export function keysOf(text: object): string[] {
  return Object.keys(originOf(text).source);
}

function viewOf<Text extends object>(origin: Origin, language: () => Language): Text {
  const view: Record<string, unknown> = {};
  for (const key of Object.keys(origin.source)) {
    const steps = key.split('.');
    const last = steps.pop() ?? key;
    let group = view;
    for (const step of steps) group = (group[step] ??= {}) as Record<string, unknown>;
    Object.defineProperty(group, last, {
      enumerable: true,
      get: () => messageIn(language(), origin.name, key, origin.source),
    });
  }
  origins.set(view, origin);
  return view as Text;
}

function originOf(text: object): Origin {
  const origin = origins.get(text);
  if (!origin) throw new Error('Pass the whole text of an area, not a group of it.');
  return origin;
}
