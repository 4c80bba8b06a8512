/** The catalogue says every built-in name in every language, and no two of a kind alike. */
import { describe, expect, it } from 'vitest';
import { allNames, keptNames, namesIn } from '../../../src/desk/names/names.ts';
import { FORMER_REASONS, OWN_REASONS, REASONS, WHOLE_SIZES } from '../../../src/trade/offered.ts';
import { text as words } from '../../../src/words/compiled/shared/common.ts';
import { languages, type Language } from '../../../src/words/languages.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { inLanguage } from '../../../src/words/of-desk.ts';
import { BUILT_IN, type BuiltIn } from './built-in.ts';
import { offeredReasons } from './offered-reasons.ts';

const english = allNames('en-US');

/** The keys under which this name may stand. */
function keysOf({ key }: BuiltIn): string[] {
  const [kind, code] = key.split('.');
  return code === '*' ? [...english.keys()].filter((one) => one.startsWith(`${kind}.`)) : [key];
}

describe('every built-in name', () => {
  it('stands in the catalogue as the data of the program say it', () => {
    expect(BUILT_IN.length).toBeGreaterThan(250);
    const missing = BUILT_IN.filter((one) => !keysOf(one).some((key) => english.get(key) === one.name));
    expect(missing).toEqual([]);
  });

  it.each(['es-MX', 'fr-CA'] as const)('has a word in %s', (language) => {
    const said = allNames(language);
    expect([...english.keys()].filter((key) => !said.get(key)?.trim())).toEqual([]);
    // Words that the trade has in common are few; the rest was really translated.
    const same = [...english].filter(([key, name]) => said.get(key) === name);
    expect(same.length).toBeLessThan(18);
  });

  it.each(Object.keys(languages) as Language[])('is told from its siblings in %s', (language) => {
    const said = allNames(language);
    const twice = [...said].filter(([key, name]) =>
      [...said].some(
        ([other, same]) => same === name && isSibling(key, other) && english.get(key) !== english.get(other),
      ),
    );
    expect(twice).toEqual([]);
  });

  it.each(['en-US', 'es-MX', 'fr-CA'] as const)('is what forms begin with in %s', async (language) => {
    await loadLanguage(language);
    const usual = inLanguage(words, language).usualProduct;
    const said = allNames(language);
    expect(usual.ground).toBe(said.get('product.ground'));
    expect(usual.wholeCuts).toBe(said.get('product.steaks-and-roasts'));
  });
});

describe('the reasons that a window offers', () => {
  it.each(['es-MX', 'fr-CA'] as const)('are those that the desk understands in %s', async (language) => {
    await loadLanguage(language);
    const offered = offeredReasons(language);
    const said = allNames(language);
    expect(Object.keys(offered)).toEqual([...REASONS]);
    for (const [code, reason] of Object.entries(offered)) expect(said.get(`reason.${code}`)).toBe(reason);
  });

  it('are kept as codes that the catalogue has a word for, as are those of the desk and of earlier versions', () => {
    const kept = [...keptNames()].filter(([key]) => /^(reason|size)\./.test(key)).map(([, code]) => code);
    const codes = [...REASONS, ...OWN_REASONS, ...FORMER_REASONS].map((code) => `reason:${code}`);
    expect(kept.toSorted()).toEqual([...codes, ...WHOLE_SIZES.map((code) => `size:${code}`)].toSorted());
  });

  it.each(['en-US', 'es-MX', 'fr-CA'] as const)(
    'are each told from the others in %s, also those of earlier versions',
    (language) => {
      const { said, meant } = namesIn(language);
      for (const code of [...REASONS, ...OWN_REASONS, ...FORMER_REASONS]) {
        const word = said('reason.*', `reason:${code}`);
        expect(word).not.toContain(':');
        expect(meant('reason.*', word)).toBe(`reason:${code}`);
      }
    },
  );
});

/** Of one kind, so that a name typed in a window has to find the right one. A species' words for its sexes may be those of another. */
function isSibling(key: string, other: string): boolean {
  const [kind, , form = 'name'] = key.split('.');
  const [otherKind, , otherForm = 'name'] = other.split('.');
  return key !== other && kind === otherKind && form === otherForm && form === 'name';
}
