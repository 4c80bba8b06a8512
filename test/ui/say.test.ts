import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/bridge/contract.ts';
import { fieldOf, say } from '../../src/ui/say.ts';
import { kindWording, problemWording } from '../../src/ui/texts/en-problems.ts';
import { makeFormat } from '../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const kinds: Problem['kind'][] = ['invalid', 'conflict', 'missing', 'refused', 'broken'];

/** Every parameter that any wording uses, so that none prints `undefined` or NaN in this test. */
const everything = {
  typed: '1,234', whole: '1234', decimal: '1.234', grams: 8445.89, baseGrams: 20000, base: 'hanging', part: 'bone',
  low: 5000, high: 6500, overGrams: 24947.58, likely: '18.6', seconds: 7, ticket: '26-0147', reason: 'weighed twice',
  by: 'MK', primal: 'wing', leftGrams: 1000, lot: 'PB-3', batch: 'G-12', hunter: 'T. Okonjo', tare: '1.2', currency: 'USD',
  code: 'grind',
}; // prettier-ignore

/** Codes written in the sources of the desk and of the light core: each is something that a person may be told. */
function codesOf(folder: string, only: RegExp): string[] {
  return readdirSync(folder)
    .filter((name) => only.test(name))
    .flatMap((name) => [
      ...readFileSync(`${folder}/${name}`, 'utf8').matchAll(
        /(?:new Trouble\('\w+', |new CoreProblem\(|, )'([a-z]+\.[a-z-]+)'/g,
      ),
    ])
    .map((match) => match[1] ?? '');
}

describe('say', () => {
  it('says what a doubtful weight is about, in the unit of the shop', () => {
    const text = say(
      {
        kind: 'conflict',
        code: 'weight.over',
        with: { grams: 37013.14, overGrams: 24947.58, likely: '18.6' },
      },
      format,
    );
    expect(text).toBe('With 81.60 lb the parts weigh 55.00 lb more than the animal. Did you mean 18.6 lb?');
  });

  it.each(Object.keys(problemWording))('words %s in whole sentences without holes', (code) => {
    const text = say({ kind: 'invalid', code, with: everything }, format);
    expect(text).toMatch(/^[A-Z“0-9].*[.?]$/);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
    expect(text).not.toContain(code);
  });

  it.each(kinds)('has a sentence for any other %s problem, with the code for a phone call', (kind) => {
    const text = say({ kind, code: 'some.unheard-of' }, format);
    expect(text).toBe(`${kindWording[kind]} (some.unheard-of)`);
  });

  it('words every code of the table, of intake and of readings', () => {
    const desk = codesOf(
      'src/desk',
      /^(table|weigh|weighing-check|intake|animals|hunters|input|batch-check|pickup)\.ts$/,
    );
    const readings = codesOf('src/core', /^reading\.ts$/);
    const silent = [...new Set([...desk, ...readings])].filter(
      (code) => !(code in problemWording) && !/^(choice|input)\.|of-nothing$/.test(code),
    );
    expect(desk.length).toBeGreaterThan(15);
    expect(readings.length).toBeGreaterThan(8);
    expect(silent).toEqual([]);
  });

  it('names the field of a problem that only names its field', () => {
    expect(fieldOf({ kind: 'invalid', code: 'x.y', field: 'weights.0.typed' })).toBe('typed');
    expect(fieldOf({ kind: 'invalid', code: 'x.y', field: 'sources[2]' })).toBe('sources');
    expect(say({ kind: 'invalid', code: 'x.y', field: 'killDate' }, format)).toMatch(/^Kill date: /);
  });
});
