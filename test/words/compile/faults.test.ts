/** Each thing that `npm run check:words` must find, found in a catalogue with just that fault. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { readCatalogue } from '../../../src/words/compile/catalogue.ts';
import { unusedFaults } from '../../../src/words/compile/unused.ts';
import { catalogueFolder, sourceFaults, translationFaults } from './catalogue.ts';

vi.mock('../../../src/words/languages.ts', () => import('./languages.ts'));

const COUNT = '{n, plural, one {# animal} other {# animals}}';
const HELD = '{ticket} is {state, select, sample {waiting for its result} other {on hold}}.';

describe('a file of en-US', () => {
  it.each([
    ['Only {grams of it', 'a placeholder is misspelled at “{grams of it”'],
    ['Only {grams', 'a { has no } at “{grams”'],
    ['Only {grams, weight} of it', 'a placeholder has an unknown kind at “weight} of it”'],
    ['{n, plural, one {# animal}}', 'a plural or select has no “other” at “}”'],
    ['{n, plural, few {# animals} other {#}}', '{n} has the plural form “few”, which en-US does not have'],
    ['{n, plural, other {# animals}}', '{n} lacks the plural form “one” of en-US'],
    [
      '{grams, number, weight}',
      '{grams, number, weight} is not known; use one of mass, share, money, aboutMoney',
    ],
    ['{day, date, longDay} of {day, number}', '{day} is used as number and as date'],
    ['<b>{n} left', 'a tag is not closed at “<b>{n} left”'],
    ['{at, time, short}', '{at, time} is not known; pass the time as text'],
  ])('must be readable: %s', (message, fault) => {
    expect(sourceFaults({ 'en-US/shop.arb': { left: message } })).toEqual([
      `en-US/shop.arb, left: ${fault}. Correct the message.`,
    ]);
  });

  it.each([
    [{ left: ' ' }, 'en-US/shop.arb, left: this message is empty. Write it, or remove the key.'],
    [
      { '@left': { description: 'x' } },
      'en-US/shop.arb, @left: it describes a key that is not there. Remove it.',
    ],
    [{ a: 'x', 'a.b': 'y' }, 'en-US/shop.arb, a: it is a message and the group of a.b. Rename one.'],
    [{ '@@locale': 'en' }, 'en-US/shop.arb: "@@locale" must be "en-US". Write it as the first line.'],
  ])('must be whole: %j', (lines, fault) => {
    expect(sourceFaults({ 'en-US/shop.arb': lines })).toEqual([fault]);
  });

  it('has no key twice, which JSON would not mind', () => {
    const text = '{\n  "@@locale": "en-US",\n  "left": "a",\n  "left": "b"\n}\n';
    expect(sourceFaults({ 'en-US/shop.arb': text })).toEqual([
      'en-US/shop.arb, left: this key stands there twice. Remove one.',
    ]);
  });

  it('is JSON', () => {
    expect(sourceFaults({ 'en-US/shop.arb': '{' })[0]).toMatch(/^en-US\/shop\.arb: this is not valid JSON/);
  });

  it('belongs to a language of the list', () => {
    expect(sourceFaults({ 'en-US/shop.arb': {}, 'de-AT/shop.arb': {} })).toEqual([
      'de-AT: this folder is no language of languages.ts. Add the language there.',
    ]);
  });
});

describe('a translation', () => {
  it.each<[object, object, string]>([
    [
      { a: 'A', b: 'B' },
      { a: 'A' },
      'es/shop.arb, b: this key is missing. Translate it from en-US/shop.arb.',
    ],
    [
      { a: 'A' },
      { a: 'A', c: 'C' },
      'es/shop.arb, c: en-US/shop.arb has no such key. Remove it, or correct its name.',
    ],
    [
      { a: 'To {name}' },
      { a: 'Para' },
      'es/shop.arb, a: the placeholder {name} is missing. Put it where it belongs.',
    ],
    [
      { a: 'To {name}' },
      { a: 'Para {name}{nombre}' },
      'es/shop.arb, a: the placeholder {nombre} is unknown. Use only those of the source.',
    ],
    [
      { a: COUNT },
      { a: '{n}' },
      'es/shop.arb, a: {n} is used as text, and in the source as number. Use it as there.',
    ],
    [
      { a: COUNT },
      { a: '{n, plural, other {#}}' },
      'es/shop.arb, a: {n} lacks the plural form “one” of es. Correct the message.',
    ],
    [
      { a: HELD },
      { a: '{ticket} {state, select, other {x}}' },
      'es/shop.arb, a: {state} lacks the option “sample”. Add it.',
    ],
    [
      { a: HELD },
      { a: '{ticket} {state, select, sample {x} muestra {y} other {z}}' },
      'es/shop.arb, a: {state} has the option “muestra”, which the source does not have. Remove it.',
    ],
    [
      { a: '<b>{n}</b>' },
      { a: '{n}' },
      'es/shop.arb, a: the tag <b> must stand in the translation and in the source, or in neither.',
    ],
  ])('of %j fails as %j', (source, translated, fault) => {
    expect(translationFaults({ ...source }, 'es', { ...translated })).toEqual([fault]);
  });

  it('passes when it takes the same values, with “many” of Spanish or without', () => {
    const spanish = '{n, plural, one {# animal} other {# animales}}';
    const whole = '{n, plural, one {# animal} many {# de animales} other {# animales}}';
    const held = '{state, select, sample {Espera resultado} other {Retenido}}: {ticket}';
    expect(
      translationFaults({ a: COUNT, b: COUNT, c: HELD }, 'es', { a: spanish, b: whole, c: held }),
    ).toEqual([]);
  });

  it('has every area', () => {
    expect(translationFaults({ a: 'A' }, 'es', null)).toEqual([
      'es/other.arb: en-US has no such area. Remove the file, or rename it.',
      'es/shop.arb: this language lacks the area shop. Translate en-US/shop.arb.',
    ]);
  });

  it('of a variant holds only what differs', () => {
    const source = { color: 'Color', hold: 'Hold' };
    expect(translationFaults(source, 'en-CA', { color: 'Colour' }, true)).toEqual([]);
    expect(translationFaults(source, 'en-CA', { color: 'Colour', hold: 'Hold' }, true)).toEqual([
      'en-CA/shop.arb, hold: it says the same as en-US/shop.arb. Remove it here.',
    ]);
    expect(translationFaults(source, 'en-CA', { rail: 'Rail' }, true)).toEqual([
      'en-CA/shop.arb, rail: en-US/shop.arb has no such key. Remove it, or correct its name.',
    ]);
  });
});

describe('a message that nothing reads', () => {
  const lines = {
    used: 'A',
    idle: 'B',
    'places.rail': 'C',
    'places.table': 'D',
    'says.one': 'E',
    'says.two': 'F',
    'book.full': 'G',
    last: 'H {n}',
  };

  function unused(reader: string): string[] {
    const root = catalogueFolder({ 'words/en-US/shop.arb': { '@@locale': 'en-US', ...lines } });
    mkdirSync(join(root, 'src/ui'), { recursive: true });
    mkdirSync(join(root, 'electron'));
    writeFileSync(join(root, 'src/ui/Page.vue'), reader);
    return unusedFaults(readCatalogue(join(root, 'words')), root);
  }
  const IMPORT = "import { text } from '../../words/compiled/shop.ts';\n";

  it('is named, and those that are read in any way are not', () => {
    const reads = "text.used; text.places[place]; text.says['one']; throw 'book.full'; text.lastly;";
    expect(unused(IMPORT + reads)).toEqual([
      'en-US/shop.arb, idle: nothing reads this message. Remove it.',
      'en-US/shop.arb, says.two: nothing reads this message. Remove it.',
      'en-US/shop.arb, last: nothing reads this message. Remove it.',
    ]);
  });

  it('is one of another area too, where only that is imported', () => {
    const reads = 'text.used; text.idle; text.places[at]; text.says[at]; text.last({ n }); "book.full"';
    expect(unused(IMPORT.replace('shop', 'other') + reads)).toHaveLength(Object.keys(lines).length);
  });
});

it('fails the command with the sentence', () => {
  const root = catalogueFolder({ 'src/words/en-US/shop.arb': '{\n  "@@locale": "en-US",\n  "a": "{b"\n}\n' });
  cpSync('src/words/compile', join(root, 'src/words/compile'), { recursive: true });
  cpSync('test/words/compile/languages.ts', join(root, 'src/words/languages.ts'));
  cpSync('node_modules/@formatjs', join(root, 'node_modules/@formatjs'), { recursive: true });
  writeFileSync(join(root, 'package.json'), '{ "type": "module" }');
  mkdirSync(join(root, 'electron'));
  const run = (): string =>
    execFileSync(process.execPath, ['src/words/compile/run.ts', '--check'], {
      cwd: root,
      encoding: 'utf8',
      stdio: 'pipe',
    });
  expect(run).toThrow(/en-US\/shop\.arb, a: a \{ has no \} at “\{b”\. Correct the message\./);
  writeFileSync(join(root, 'src/words/en-US/shop.arb'), '{\n  "@@locale": "en-US",\n  "a": "b"\n}\n');
  expect(run).toThrow('en-US/shop.arb, a: nothing reads this message. Remove it.');
  writeFileSync(join(root, 'src/reader.ts'), "import { text } from './words/compiled/shop.ts';\ntext.a;\n");
  expect(run()).toBe('');
});
