/** No question that a screen keeps open shows the English name of a built-in thing in a window of another language. */
import { expect, it } from 'vitest';
import type { Language } from '../../../src/words/languages.ts';
import { allNames } from '../../../src/desk/names/names.ts';
import { busyShop } from '../busy-shop.ts';
import { questionsOf } from '../questions.ts';

/** A text where it stands in an answer. */
function* textsIn(value: unknown, place: string): Generator<{ place: string; text: string }> {
  if (typeof value === 'string') yield { place, text: value };
  else if (Array.isArray(value)) for (const one of value) yield* textsIn(one, place);
  else if (typeof value === 'object' && value !== null)
    for (const [field, one] of Object.entries(value)) yield* textsIn(one, `${place}.${field}`);
}

/** Names that this language says otherwise. Those in lower case are left out: many are codes too. */
function foreignNames(language: Language): Set<string> {
  const said = allNames(language);
  const ours = new Set(said.values());
  const names = [...allNames('en-US')].filter(([key, name]) => said.get(key) !== name && !ours.has(name));
  return new Set(names.map(([, name]) => name).filter((name) => !/^\p{Ll}/u.test(name)));
}

it.each(['es-MX', 'fr-CA'] as const)(
  'in %s',
  async (language) => {
    const shop = await busyShop();
    const questions = questionsOf(shop);
    const foreign = foreignNames(language);
    const ours = new Set(allNames(language).values());
    const seen: string[] = [];
    let said = 0;
    for (const [name, input] of questions) {
      for (const { place, text } of textsIn(await shop.desk.call(name, input, undefined, language), name)) {
        if (foreign.has(text)) seen.push(`${place}: ${text}`);
        if (ours.has(text)) said += 1;
      }
    }
    expect([...new Set(seen)]).toEqual([]);
    expect(said).toBeGreaterThan(300);
    shop.desk.close();
  },
  60_000,
);
