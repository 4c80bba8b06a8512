import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../src/bridge/contract.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { fieldOf, problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { problemCodes } from '../../../src/ui/texts/problem-sentences.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const kinds: Problem['kind'][] = ['invalid', 'conflict', 'missing', 'refused', 'broken'];

/** Every parameter that any message uses, so that none prints `undefined` or NaN in this test. */
const everything = {
  typed: '1,234', digit: '²', whole: '1234', decimal: '1.234', grams: 8445.89, baseGrams: 20000, base: 'hanging', part: 'bone',
  low: 5000, high: 6500, overGrams: 24947.58, likely: '18.6', seconds: 7, ticket: '26-0147', reason: 'weighed twice',
  by: 'MK', primal: 'Wing', leftGrams: 1000, startGrams: 9000, lot: 'PB-3', quote: 'Q26-0001',
  batch: 'G-12', hunter: 'T. Okonjo', tare: '1.2', currency: 'USD',
  number: 17, lack: 'hanging', dueMinor: 4550, amountMinor: 5000, paidMinor: 2000,
  code: 'grind', source: 'Beef suet', line: 'US,GS', word: 'US', decimals: 9,
  name: 'Sika deer', heat: 165, least: 9000, typical: 24000, most: 60000,
  first: 'Sausage', second: 'Links',
  row: 12, what: 'animal', years: 3, date: '2021-11-04',
  path: '/shop/shop.gambrel',
  cooler: 'Cold room 1', count: 3, sample: 'L26-118', before: 'positive', other: '26-0012',
  inGrams: 20000, outGrams: 23000, tickets: '26-0012, 26-0013', shop: 'EUR', paidIn: 'USD',
  day: '2026-11-20', overMinor: -150, expectedMinor: 16220, totalMinor: 12000, seenMinor: 9000, newer: 19, method: 'card', on: '2026-11-18', kind: 'cape', kinds: 'cape, antlers', percent: 90,
  from: 'G-11', step: 'second', cutGrams: 42000, packedGrams: 20000, groundGrams: 13000, missingGrams: 9000,
  to: 'Dana Whitlock', unpacked: 'G-12', notMade: 'jerky',
  ppm: 173.6, agent: 'nitrite', limit: 156.25, share: 0.32, f: 152.4, need: 43, minutes: 95, strength: 0.4, cure: 'Pink cure',
  stated: 'ground', derived: 'pumped', asked: 45, load: 'L26-001', decided: 'hold',
  port: 47115, now: 'EUR', today: '2126-11-20', last: '2026-10-10', season: 2025, initials: 'AB', left: 2, expected: 12,
}; // prettier-ignore

/** Names of fields, files and hosts that look like codes. */
const NOT_CODES =
  /^(group|instructions|parts)\.(?!empty)|^fat\.(min|max)$|^[a-z]+\.(gambrel|csv|json)$|^gambrel\.(session|scale|lessons)$|^stations\.(line|ask)$|^outcome\.state$|^w\.id$|\.(arpa|local)$/;

/** Rooms of the core that no call uses: their codes cannot reach a window. */
const UNCALLED: readonly string[] = [];

/** Every code written below the window’s layer, and by its scale and the page of stations: thrown or returned codes are literal strings of this shape. */
function codesBelow(): string[] {
  const calls = new Set(Object.keys(procedures));
  const textsOf = (folder: string): string[] =>
    readdirSync(`src/${folder}`, { recursive: true, encoding: 'utf8' })
      // Where names stand in calls is written like codes.
      .filter((name) => name.endsWith('.ts') && !/^names[\\/]/.test(name))
      .map((name) => readFileSync(`src/${folder}/${name}`, 'utf8'));
  const core = readdirSync('src/core').filter((room) => !room.includes('.') && !UNCALLED.includes(room));
  const texts = [
    ...core.map((room) => `core/${room}`),
    'book',
    'desk',
    'bridge',
    'ui/scale',
    'ui/link',
    'ui/station',
  ].flatMap(textsOf);
  const found = texts.flatMap((text) =>
    [...text.matchAll(/'([a-z]+(?:-[a-z]+)*\.[a-z]+(?:-[a-z]+)*)'/g)].map((match) => match[1] ?? ''),
  );
  return [...new Set(found)].filter((code) => !calls.has(code) && !NOT_CODES.test(code));
}

it('names what came with an animal by its words, never by their codes', () => {
  const said = (code: string, given: Record<string, string>) =>
    problemMessage({ kind: 'conflict', code, with: given }, format);
  const kinds = { ticket: '26-0001', kinds: 'antlers, caul fat, whole skeleton' };
  expect(said('release.belongings', kinds)).toContain('26-0001: Antlers, Caul fat, Whole skeleton.');
  expect(said('belonging.here', { kind: 'caul fat' })).toContain('(Caul fat)');
  expect(said('belonging.gone', { kind: 'hide', on: '2026-11-25' })).toContain('(Hide)');
});

describe('weights in a question', () => {
  const hook = { grams: 20_000, part: 'hook', baseGrams: 54_488, low: 22_000, high: 30_000 };
  const asked = (more: object) =>
    problemMessage(
      { kind: 'conflict', code: 'weight.unlikely', field: 'typed', with: { ...hook, ...more } },
      format,
    );

  it('are written as they were typed, where the desk says so', () => {
    expect(asked({ said: '44 lb 2 oz', baseSaid: '120 lb 2 oz' })).toMatch(
      /^44 lb 2 oz is unusual: of 120 lb 2 oz received/,
    );
    expect(asked({})).toMatch(/^44\.\d\d lb is unusual: of 120\.\d\d lb received/);
  });
});

describe('say', () => {
  it('names the subject of a doubtful weight, in the unit of the shop', () => {
    const text = problemMessage(
      {
        kind: 'conflict',
        code: 'weight.over',
        with: { grams: 37013.14, overGrams: 24947.58, likely: '18.6' },
      },
      format,
    );
    expect(text).toBe(
      'With 81.60 lb more, the parts weigh 55.00 lb more than the animal. Did you mean 18.6 lb?',
    );
  });

  it('states both readings of a number with a space, and what is wrong with a small digit', () => {
    const told = (code: string, more: object) =>
      problemMessage({ kind: 'invalid', code, with: { typed: '12 125', ...more } }, format);
    expect(told('reading.ambiguous', { whole: '12125', decimal: '12.125' })).toBe(
      '“12 125” can be read two ways. Type 12125 or 12.125.',
    );
    expect(told('reading.odd-digit', { typed: '12²', digit: '²' })).toBe(
      '“12²”: ² is not a plain digit. Use only 0 to 9.',
    );
  });

  it.each(problemCodes)('words %s in complete sentences', (code) => {
    const text = problemMessage({ kind: 'invalid', code, with: everything }, format);
    expect(text).toMatch(/^[A-Z“$0-9].*[.?]$/);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
    expect(text).not.toContain(code);
  });

  it.each(kinds)('has a fallback for any other %s problem, with the code for support', (kind) => {
    const text = problemMessage({ kind, code: 'some.unheard-of' }, format);
    expect(text).toMatch(/^[A-Z].*[.] \(some\.unheard-of\)$/);
  });

  it('has a message for every code of core, book, desk and bridge', () => {
    const codes = codesBelow();
    // A sample of each way in which codes are written: thrown, passed on, in a schema, in an answer.
    expect(codes).toEqual(
      expect.arrayContaining([
        'weighing.used', 'price.no-unit', 'money.too-fine', 'choice.part', 'desk.no-session', 'book.locked',
        'request.too-slow', 'yield.prior-spread',
      ]),
    ); // prettier-ignore
    expect(codes.filter((code) => !problemCodes.includes(code))).toEqual([]);
  });

  it('leaves out the codes of no room that a call uses', () => {
    const desk = readdirSync('src/desk', { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(`src/desk/${name}`, 'utf8'));
    const called = UNCALLED.filter((room) => desk.some((text) => text.includes(`/core/${room}/`)));
    expect(called).toEqual([]);
  });

  it('has no message for unused codes', () => {
    const codes = new Set(codesBelow());
    expect(problemCodes.filter((code) => !codes.has(code))).toEqual([]);
  });

  it('names the field of a problem that only names its field', () => {
    expect(fieldOf({ kind: 'invalid', code: 'x.y', field: 'weights.0.typed' })).toBe('typed');
    expect(fieldOf({ kind: 'invalid', code: 'x.y', field: 'sources[2]' })).toBe('sources');
    expect(problemMessage({ kind: 'invalid', code: 'x.y', field: 'killDate' }, format)).toMatch(
      /^Kill date: /,
    );
  });
});
