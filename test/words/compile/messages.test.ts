/** Compiled messages say what ICU MessageFormat says, in each kind that the program uses. */
import { describe, expect, it } from 'vitest';
import { readLanguage } from '../../../src/words/compile/catalogue.ts';
import { codeOf, typeOf } from '../../../src/words/compile/print.ts';
import { pseudoMessage } from '../../../src/words/compile/pseudo.ts';
import { readMessage } from '../../../src/words/compile/message.ts';
import { cardinal, optionOf, ordinal } from '../../../src/words/forms.ts';
import { writer, type Rich, type Writer } from '../../../src/words/speech.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format: Writer = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });

/** Runs the code of one message. The program itself evaluates nothing: its messages are modules. */
function said(message: string, values: object = {}, language = 'en-US', w: Writer = format): string | Rich {
  return run(codeOf(readMessage(message, language)), values, language, w);
}

function run(code: string, values: object, language: string, w: Writer): string | Rich {
  const make = new Function('form', 'ordinalForm', 'optionOf', 'writer', `return ${code}`);
  const made: unknown = make(cardinal(language), ordinal(language), optionOf, writer);
  return typeof made === 'function'
    ? (made as (a: object, w: Writer) => string | Rich)(values, w)
    : (made as string);
}

describe('a compiled message', () => {
  it.each<[string, object, string]>([
    ['Ticket {ticket}.', { ticket: '26-0147' }, 'Ticket 26-0147.'],
    ['{n, plural, one {# animal} other {# animals}}', { n: 1 }, '1 animal'],
    ['{n, plural, one {# animal} other {# animals}}', { n: 1234 }, '1,234 animals'],
    ['{n, plural, =0 {None} one {# day} other {# days}}', { n: 0 }, 'None'],
    [
      '{n, plural, offset:1 =0 {none} =1 {{first}} one {{first} and # more} other {{first} and # more}}',
      { n: 3, first: 'vue' },
      'vue and 2 more',
    ],
    ['every {n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}', { n: 22 }, 'every 22nd'],
    ['every {n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}', { n: 11 }, 'every 11th'],
    ['Voided{by, select, none {} other { by {by}}}.', { by: 'MK' }, 'Voided by MK.'],
    ['Voided{by, select, none {} other { by {by}}}.', { by: '' }, 'Voided.'],
    ['Voided{by, select, none {} other { by {by}}}.', { by: null }, 'Voided.'],
    ['Voided{by, select, none {} other { by {by}}}.', { by: 'none' }, 'Voided by none.'],
    ['{part, select, whole_cuts {Cuts} other {Rest}}', { part: 'whole cuts' }, 'Cuts'],
    ['{part, select, whole_cuts {Cuts} other {Rest}}', { part: 'whole-cuts' }, 'Cuts'],
    ['{demo, select, true {Demo} other {Shop}}', { demo: true }, 'Demo'],
    [
      '{n, plural, one {one {kind, select, side {side} other {piece}}} other {# {kind, select, side {sides} other {pieces}}}}',
      { n: 2, kind: 'side' },
      '2 sides',
    ],
    [
      'Only {grams, number, mass} of {n, number} is left.',
      { grams: 8445.89, n: 12345 },
      'Only 18.62 lb of 12,345 is left.',
    ],
    ['{part, number, share} of {due, number, money}', { part: 0.294, due: 4550 }, '29.4% of $45.50'],
    ['Since {day, date, longDay}', { day: '2026-11-24' }, 'Since Nov 24, 2026'],
  ])('%s with %j', (message, values, expected) => {
    expect(said(message, values)).toBe(expected);
  });

  it('keeps marks of code in a text as text', () => {
    const text = 'A `tick`, a \\ , a "quote", a $ and a #: {name}';
    expect(said(text, { name: '${x}' })).toBe('A `tick`, a \\ , a "quote", a $ and a #: ${x}');
  });

  it('writes numbers as the shop does, whatever the language', () => {
    const german = makeFormat({ unit: 'kg', step: 0.01, locale: 'de-DE', currency: 'EUR' });
    expect(said('{n, plural, one {# animal} other {# animales}}', { n: 1234 }, 'es', german)).toBe(
      '1.234 animales',
    );
  });

  it.each([
    ['fr', 0, 'zéro ou un'],
    ['fr', 2, 'plusieurs'],
    ['es', 0, 'plusieurs'],
    ['es', 1, 'zéro ou un'],
    ['es', 1_000_000, 'plusieurs'],
  ])('follows the plural rules of %s for %d', (language, n, expected) => {
    expect(said('{n, plural, one {zéro ou un} other {plusieurs}}', { n }, language)).toBe(expected);
  });

  it('gives tagged parts to be drawn', () => {
    const message = '<b>{grams, number, mass}</b> left{more, select, none {} other { (<a>{more}</a>)}}.';
    expect(said(message, { grams: 8445.89, more: 'see' })).toEqual([
      { tag: 'b', of: ['18.62 lb'] }, ' left', ' (', { tag: 'a', of: ['see'] }, ')', '.',
    ]); // prettier-ignore
  });

  it.each([
    ['Rail', 'string'],
    ['{n, plural, one {#} other {#}}', '(values: { n: number }, writer?: Writer) => string'],
    ['{a} {day, date, day}', '(values: { a: string; day: string }, writer?: Writer) => string'],
    [
      '{by, select, none {} other {{by}}}',
      '(values: { by: string | null | undefined }, writer?: Writer) => string',
    ],
    ['{on, select, true {a} other {b}}', '(values: { on: boolean }, writer?: Writer) => string'],
    [
      '{s, select, whole_cuts {a} trim {b} other {c}}',
      "(values: { s: 'whole_cuts' | 'whole-cuts' | 'whole cuts' | 'trim' | 'other' }, writer?: Writer) => string",
    ],
    [
      '{s, select, trim {a} other {{s}}}',
      "(values: { s: 'trim' | (string & {}) }, writer?: Writer) => string",
    ],
    ['<b>{n}</b>', '(values: { n: string }, writer?: Writer) => Rich'],
  ])('%s has a type', (message, type) => {
    expect(typeOf(readMessage(message, 'en-US'))).toBe(type);
  });
});

describe('the pseudo-language', () => {
  const pseudo = (message: string, values: object = {}): string =>
    String(run(codeOf(pseudoMessage(readMessage(message, 'en-US'))), values, 'en-US', format));

  it('is 40 % longer, with accents, in brackets, and keeps its values', () => {
    expect(pseudo('Save')).toBe('[Šááṽéé]');
    const text = 'Pick at least one animal whose trim waits.';
    const letters = (of: string): number => of.replaceAll(/\P{L}/gu, '').length;
    expect(letters(pseudo(text)) / letters(text)).toBeCloseTo(1.4, 1);
    expect(pseudo('Ticket {ticket} is ready.', { ticket: '26-0147' })).toContain(' 26-0147 ');
    expect(pseudo(text)).not.toMatch(/[a-z]/i);
  });
});

it('reads the areas of a language from its folder', () => {
  const faults: string[] = [];
  expect([...readLanguage('src/words', 'en-US', faults).keys()]).toContain('window/about');
  expect(faults).toEqual([]);
});
