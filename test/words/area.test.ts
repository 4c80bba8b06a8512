import { afterEach, expect, it } from 'vitest';
import { area, inLanguage, keysOf, messageOf } from '../../src/words/area.ts';
import { text as about } from '../../src/words/compiled/window/about.ts';
import { loaders } from '../../src/words/compiled/languages.ts';
import { languages, SOURCE_LANGUAGE, type Language } from '../../src/words/languages.ts';
import { listText } from '../../src/words/list.ts';
import { loadLanguage } from '../../src/words/load.ts';
import { isLoaded, keepLanguage, speakWith } from '../../src/words/speech.ts';

interface Text {
  title: string;
  places: { rail: string; table: string };
}
const text = area<Text>('test/area', { title: 'Places', 'places.rail': 'Rail', 'places.table': 'Table' });

afterEach(() => speakWith({ language: () => SOURCE_LANGUAGE }));

it('reads groups of keys as objects, and a whole key at run time', () => {
  expect(text.places.rail).toBe('Rail');
  expect(Object.entries(text.places)).toEqual([
    ['rail', 'Rail'],
    ['table', 'Table'],
  ]);
  expect(messageOf(text, 'places.table')).toBe('Table');
  expect(messageOf(text, 'places')).toBeUndefined();
  expect(messageOf(text, 'toString')).toBeUndefined();
  expect(keysOf(text)).toEqual(['title', 'places.rail', 'places.table']);
  expect(() => messageOf(text.places, 'rail')).toThrow('Pass the whole text of an area');
});

it('says at each read what the language of that moment says, and en-US where it says nothing', () => {
  keepLanguage('qps', { 'test/area': { title: 'Lugares' } });
  speakWith({ language: () => 'qps' });
  expect([text.title, text.places.rail]).toEqual(['Lugares', 'Rail']);
  speakWith({ language: () => SOURCE_LANGUAGE });
  expect(text.title).toBe('Places');
  expect(inLanguage(text, 'qps').title).toBe('Lugares');
});

it('loads a language once, from a file of its own', async () => {
  const others = Object.keys(loaders) as Language[];
  expect(others).toEqual(expect.arrayContaining(['en-CA', 'qps']));
  for (const code of others) {
    await loadLanguage(code);
    expect(isLoaded(code)).toBe(true);
    const { words = {} } = (await loaders[code]?.()) ?? {};
    const said = Object.keys(words['window/about'] ?? {});
    // A variant holds only what differs.
    if ('over' in languages[code]) expect(keysOf(about)).toEqual(expect.arrayContaining(said));
    else expect(said).toEqual(keysOf(about));
    expect(Object.keys(words).filter((name) => !/^(window|problems|shared)\//.test(name))).toEqual([]);
  }
});

it('joins a list as the language does', () => {
  expect(listText(['cape', 'antlers', 'heart'], 'and')).toBe('cape, antlers, and heart');
  expect(listText(['cape', 'antlers'], 'or')).toBe('cape or antlers');
  expect(listText(['cape', 'antlers'])).toBe('cape, antlers');
  expect(listText([])).toBe('');
});
