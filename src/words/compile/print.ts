/** Prints a message as the code of a function, and the type that its caller sees. */
import {
  TYPE,
  type MessageFormatElement,
  type PluralElement,
  type SelectElement,
} from '@formatjs/icu-messageformat-parser';
import type { ReadMessage, Value } from './message.ts';

/** The count that a # stands for. */
type Pound = string | null;

/** A message as an expression: a string, or a function of its values and, if it writes numbers, of the writer. */
export function codeOf(message: ReadMessage): string {
  const body = message.tags.size > 0 ? richCode(message.parts, null) : textCode(message.parts, null);
  if (message.values.size === 0) return message.tags.size > 0 ? `() => ${body}` : body;
  return body.includes('w.') ? `(a, w = writer()) => ${body}` : `(a) => ${body}`;
}

/** The type of a message as a property of its area. */
export function typeOf({ values, tags }: ReadMessage): string {
  const result = tags.size > 0 ? 'Rich' : 'string';
  if (values.size === 0) return tags.size > 0 ? '() => Rich' : 'string';
  const members = [...values].map(([name, value]) => `${name}: ${valueType(value)}`);
  return `(values: { ${members.join('; ')} }, writer?: Writer) => ${result}`;
}

function valueType({ kind, options, printed }: Value): string {
  if (kind === 'number') return 'number';
  if (kind === 'text' || kind === 'date') return 'string';
  if (isPresence(options)) return 'string | null | undefined';
  if (isBoolean(options)) return 'boolean';
  const spelled = [...options].flatMap((option) => [
    ...new Set([option, option.replaceAll('_', '-'), option.replaceAll('_', ' ')]),
  ]);
  const union = spelled.filter((option) => option !== 'none').map((option) => `'${option}'`);
  const absent = options.has('none') ? [`''`, 'null', 'undefined'] : [];
  return [...union, ...absent, printed ? '(string & {})' : `'other'`].join(' | ');
}

function textCode(parts: MessageFormatElement[], pound: Pound): string {
  if (parts.every(({ type }) => type === TYPE.literal))
    return quoted(parts.map((part) => (part.type === TYPE.literal ? part.value : '')).join(''));
  const pieces = parts.map((part) =>
    part.type === TYPE.literal ? escaped(part.value) : `\${${valueCode(part, pound, textCode)}}`,
  );
  return `\`${pieces.join('')}\``;
}

function richCode(parts: MessageFormatElement[], pound: Pound): string {
  const pieces = parts.map((part) => {
    if (part.type === TYPE.literal) return quoted(part.value);
    if (part.type === TYPE.tag)
      return `{ tag: ${quoted(part.value)}, of: ${richCode(part.children, pound)} }`;
    const code = valueCode(part, pound, richCode);
    return part.type === TYPE.select || part.type === TYPE.plural ? `...${code}` : code;
  });
  return `[${pieces.join(', ')}]`;
}

function valueCode(part: MessageFormatElement, pound: Pound, print: typeof textCode): string {
  switch (part.type) {
    case TYPE.argument:
      return `a.${part.value}`;
    case TYPE.number:
    case TYPE.date:
      return `w.${part.style ? String(part.style) : 'number'}(a.${part.value})`;
    case TYPE.pound:
      return `w.number(${pound})`;
    case TYPE.plural:
      return pluralCode(part, print);
    case TYPE.select:
      return selectCode(part, pound, print);
    default:
      throw new Error('A tag lies inside a text without tags.');
  }
}

function pluralCode({ value, options, offset, pluralType }: PluralElement, print: typeof textCode): string {
  const count = offset ? `(a.${value} - ${offset})` : `a.${value}`;
  const form = `${pluralType === 'ordinal' ? 'ordinalForm' : 'form'}(${count})`;
  const cases = Object.entries(options).filter(([option]) => option !== 'other');
  // Exact numbers come before forms, whatever their order in the message.
  cases.sort(([a], [b]) => Number(b.startsWith('=')) - Number(a.startsWith('=')));
  const tests = cases.map(([option, { value: parts }]) => {
    const test = option.startsWith('=') ? `a.${value} === ${option.slice(1)}` : `${form} === '${option}'`;
    return `${test} ? ${print(parts, count)} : `;
  });
  return `(${tests.join('')}${print(options.other?.value ?? [], count)})`;
}

function selectCode({ value, options }: SelectElement, pound: Pound, print: typeof textCode): string {
  const tests = Object.entries(options)
    .filter(([option]) => option !== 'other')
    .map(([option, { value: parts }]) => `${optionTest(`a.${value}`, option)} ? ${print(parts, pound)} : `);
  return `(${tests.join('')}${print(options.other?.value ?? [], pound)})`;
}

/** `none` is no value or an empty one, never a text that says so. */
function optionTest(value: string, option: string): string {
  if (option === 'none') return `!${value}`;
  if (option === 'true' || option === 'false') return `${value} === ${option}`;
  return option.includes('_') ? `optionOf(${value}) === '${option}'` : `${value} === '${option}'`;
}

function isPresence(options: Set<string>): boolean {
  return options.size === 1 && options.has('none');
}

function isBoolean(options: Set<string>): boolean {
  return options.size > 0 && [...options].every((option) => option === 'true' || option === 'false');
}

function quoted(text: string): string {
  return JSON.stringify(text);
}

function escaped(text: string): string {
  return text.replaceAll(/[\\`]|\$\{/g, '\\$&').replaceAll('\n', '\\n');
}
