/** Reads one ICU message: its parts, and the names and kinds of the values that it takes. */
import {
  parse,
  TYPE,
  type MessageFormatElement,
  type PluralElement,
} from '@formatjs/icu-messageformat-parser';

export interface Value {
  kind: 'text' | 'number' | 'date' | 'select';
  /** Options of a select, without `other`. */
  options: Set<string>;
  /** A select whose value is also printed takes any text. */
  printed: boolean;
}

export interface ReadMessage {
  parts: MessageFormatElement[];
  values: Map<string, Value>;
  /** Names of tags such as `b`. */
  tags: Set<string>;
}

/** What a message gets from the writer, after `number` and `date`. */
export const STYLES: Readonly<Record<'number' | 'date', readonly string[]>> = {
  number: ['mass', 'share', 'money', 'aboutMoney'],
  date: ['day', 'monthDay', 'month', 'longDay', 'wholeDay'],
};

/** Why a message cannot be read; shown after file and key. */
export class MessageFault extends Error {}

const SAID: Readonly<Record<string, string>> = {
  EXPECT_ARGUMENT_CLOSING_BRACE: 'a { has no }',
  UNMATCHED_CLOSING_BRACE: 'a } has no {',
  EMPTY_ARGUMENT: 'a placeholder has no name',
  MALFORMED_ARGUMENT: 'a placeholder is misspelled',
  INVALID_ARGUMENT_TYPE: 'a placeholder has an unknown kind',
  MISSING_OTHER_CLAUSE: 'a plural or select has no “other”',
  DUPLICATE_PLURAL_ARGUMENT_SELECTOR: 'a plural has a form twice',
  DUPLICATE_SELECT_ARGUMENT_SELECTOR: 'a select has an option twice',
  UNCLOSED_TAG: 'a tag is not closed',
  UNMATCHED_CLOSING_TAG: 'a tag is closed that was not opened',
  INVALID_TAG: 'a tag is misspelled',
};

/**
 * Reads a message of a language, whose plural forms it must use.
 * @throws MessageFault
 */
export function readMessage(text: string, language: string): ReadMessage {
  const message: ReadMessage = { parts: parsed(text), values: new Map(), tags: new Set() };
  gather(message.parts, message, language);
  return message;
}

function parsed(text: string): MessageFormatElement[] {
  try {
    return parse(text, { captureLocation: true, requiresOtherClause: true, shouldParseSkeletons: false });
  } catch (error) {
    const { message, location } = error as Error & { location?: { start: { offset: number } } };
    const found = text.slice(location?.start.offset ?? 0, (location?.start.offset ?? 0) + 20);
    throw new MessageFault(`${SAID[message] ?? message} at “${found}”`);
  }
}

function gather(parts: MessageFormatElement[], message: ReadMessage, language: string): void {
  for (const part of parts) {
    if (part.type === TYPE.argument) valueOf(message, part.value, 'text').printed = true;
    else if (part.type === TYPE.number) withStyle(message, part.value, 'number', part.style);
    else if (part.type === TYPE.date) withStyle(message, part.value, 'date', part.style);
    else if (part.type === TYPE.time)
      throw new MessageFault(`{${part.value}, time} is not known; pass the time as text`);
    else if (part.type === TYPE.plural) {
      valueOf(message, part.value, 'number');
      checkForms(part, language);
      for (const { value } of Object.values(part.options)) gather(value, message, language);
    } else if (part.type === TYPE.select) {
      const { options } = valueOf(message, part.value, 'select');
      for (const [option, { value }] of Object.entries(part.options)) {
        if (option !== 'other') options.add(option);
        gather(value, message, language);
      }
    } else if (part.type === TYPE.tag) {
      message.tags.add(part.value);
      gather(part.children, message, language);
    }
  }
}

function withStyle(message: ReadMessage, name: string, kind: 'number' | 'date', style: unknown): void {
  const known =
    style === undefined || style === null ? kind === 'number' : STYLES[kind].includes(String(style));
  if (!known)
    throw new MessageFault(
      `{${name}, ${kind}, ${String(style ?? '')}} is not known; use one of ${STYLES[kind].join(', ')}`,
    );
  valueOf(message, name, kind);
}

function valueOf({ values }: ReadMessage, name: string, kind: Value['kind']): Value {
  const value = values.get(name);
  if (!value) {
    const fresh: Value = { kind, options: new Set(), printed: false };
    values.set(name, fresh);
    return fresh;
  }
  const kinds = new Set([kind, value.kind]);
  if (kinds.size === 1) return value;
  // A value may decide and be printed as it is; a number or a date is nothing else beside.
  if (!kinds.has('number') && !kinds.has('date')) value.kind = 'select';
  else throw new MessageFault(`{${name}} is used as ${[...kinds].join(' and as ')}`);
  return value;
}

function checkForms({ value, options, pluralType }: PluralElement, language: string): void {
  const { pluralCategories } = new Intl.PluralRules(language, {
    type: pluralType ?? 'cardinal',
  }).resolvedOptions();
  const forms = Object.keys(options).filter((form) => !form.startsWith('='));
  const unknown = forms.find((form) => !(pluralCategories as string[]).includes(form));
  if (unknown)
    throw new MessageFault(`{${value}} has the plural form “${unknown}”, which ${language} does not have`);
  // “many” of Spanish and French is that of whole millions, for which “other” does.
  const missing = pluralCategories.find(
    (form) => form !== 'many' && !forms.includes(form) && !options[`=${form === 'one' ? 1 : form}`],
  );
  if (missing) throw new MessageFault(`{${value}} lacks the plural form “${missing}” of ${language}`);
}
