/**
 * A name for a screen reader contains what the button shows, so that who says or hears one finds the other (WCAG 2.2, 2.5.3). A name
 * is the key of the shown word and `Of`.
 */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readCatalogue } from '../../src/words/compile/catalogue.ts';

const { languages } = readCatalogue(join(import.meta.dirname, '../../src/words'));
const source = languages.get('en-US') ?? new Map();

/** Where en-US says both as button and name: the name begins with the button's word. */
const pairs = [...source].flatMap(([area, { entries }]) =>
  [...entries].flatMap(([key, { text }]) => {
    const shown = key.endsWith('Of') ? entries.get(key.slice(0, -'Of'.length))?.text : undefined;
    return shown && text.startsWith(`${shown} {`)
      ? [{ area, shown: key.slice(0, -'Of'.length), name: key }]
      : [];
  }),
);

it.each(['es-MX', 'fr-CA'])('in %s', (language) => {
  const textOf = (area: string, key: string) =>
    languages.get(language)?.get(area)?.entries.get(key)?.text ?? '';
  const apart = pairs.filter(({ area, shown, name }) => !textOf(area, name).startsWith(textOf(area, shown)));
  expect(apart).toEqual([]);
  expect(pairs.length).toBeGreaterThan(5);
});
