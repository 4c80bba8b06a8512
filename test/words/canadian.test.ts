/** The words of a window in Canada: those of en-US with what the overlay says otherwise. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readCatalogue } from '../../src/words/compile/catalogue.ts';
import { languageLines } from '../../src/words/languages.ts';

const { languages } = readCatalogue(join(import.meta.dirname, '../../src/words'));
const [american, canadian] = ['en-US', 'en-CA'].map((code) => languages.get(code) ?? new Map());

/** Each message as a Canadian reads it, without the codes of selects and the name of a file. */
const read = [...(american ?? [])].flatMap(([area, { entries }]) =>
  [...entries].map(([key, { text }]) => {
    const said: string = canadian?.get(area)?.entries.get(key)?.text ?? text;
    return { at: `${area} ${key}`, said: said.replaceAll(/\b\w+ (?=\{)|LICENSES\S+/g, '') };
  }),
);
/** Spellings and offices of the United States. */
const AMERICAN =
  /\blicenses?\b|\bcolor(?!ado\b)|\bcenter|\bgray\b|\bcanceled\b|\bcanceling\b|\blabel(?:ed|ing)\b|\bliters?\b|\bfavor|\bhealth department\b|\byour state\b|\bgame warden|\bsales tax\b|\bzip code/i;
/** A temperature with that of the other scale in brackets. */
const BOTH = /°[FC] \([^)]*°/;

it('is a variant of en-US', () => expect(languageLines['en-CA']).toMatchObject({ over: 'en-US' }));

it('has Canadian spelling and offices', () => {
  expect(read.length).toBeGreaterThan(1000);
  expect(read.filter(({ said }) => AMERICAN.test(said))).toEqual([]);
  const cheque = canadian?.get('window/bill')?.entries.get('methods.check')?.text;
  expect(cheque).toBe('Cheque');
});

it('says degrees Celsius first where it says both', () => {
  const both = read.filter(({ said }) => BOTH.test(said));
  expect(both.length).toBeGreaterThan(5);
  expect(both.filter(({ said }) => said.search('°C') > said.search('°F'))).toEqual([]);
});
