/** The window's build leaves the names of messages out, and each is still found. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build, type Rolldown } from 'vite';
import { describe, expect, it } from 'vitest';
import { shortWords } from '../../electron/packaging/short-words.ts';

const SHOP = `import { area } from '../../area.ts';
const source = { "title": "Shop", "units.lb": "pounds", "hello": (a) => \`Hello \${a.name}\`, "units.kg": "kilos" };
export const text = area("window/shop", source);`;
const TILL = `import { area } from '../../area.ts';
const source = { "opened": "Open", "closed": "Closed" };
export const text = area("window/till", source);`;
/** Spanish lacks some, which are said in English. */
const SPANISH = `export const words = { "window/shop": { "units.lb": "libras",
  "hello": (a) => \`Hola \${a.name}\`, "units.kg": "kilos" }, "window/till": { "opened": "Abierta" } };`;
/** Nested getters as of src/words/area.ts, in the language of the moment. */
const AREA = `import { words } from './compiled/languages/es-MX.ts';
export const speech = { spanish: false };
export function area(name, source) {
  const view = {};
  for (const key of Object.keys(source)) {
    const [first, second] = key.split('.');
    const group = second === undefined ? view : (view[first] ??= {});
    const get = () => (speech.spanish ? words[name][key] : null) ?? source[key];
    Object.defineProperty(group, second ?? first, { get, enumerable: true });
  }
  return view;
}`;
const READER = `import { text } from './words/compiled/window/shop.ts';
import { text as till } from './words/compiled/window/till.ts';
import { speech } from './words/area.ts';
const other = { text: { title: 'no message' } };
export function say(spanish: boolean, unit: 'lb' | 'kg', state: keyof typeof till): string[] {
  speech.spanish = spanish;
  return [text.title, text.hello({ name: 'Ann' }), text.units[unit], till[state], other.text.title];
}`;

/** A project of a few files, built with the plugin. */
async function built(reader: string): Promise<string> {
  const root = mkdtempSync(join(tmpdir(), 'gambrel-words-'));
  const files = {
    'src/words/area.ts': AREA,
    'src/words/compiled/window/shop.ts': SHOP,
    'src/words/compiled/window/till.ts': TILL,
    'src/words/compiled/languages/es-MX.ts': SPANISH,
    'src/reader.ts': reader,
  };
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  const result = (await build({
    root,
    logLevel: 'silent',
    configFile: false,
    plugins: [shortWords(root)],
    build: { write: false, lib: { entry: 'src/reader.ts', formats: ['es'], fileName: 'reader' } },
  })) as Rolldown.RolldownOutput[];
  return result[0]?.output[0].code ?? '';
}

describe('messages without their names', () => {
  it('are found in each language, by name, in a group and by index', async () => {
    const code = await built(READER);
    const { say } = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as {
      say(spanish: boolean, unit: string, state: string): string[];
    };
    expect(say(false, 'lb', 'closed')).toEqual(['Shop', 'Hello Ann', 'pounds', 'Closed', 'no message']);
    expect(say(true, 'kg', 'opened')).toEqual(['Shop', 'Hola Ann', 'kilos', 'Abierta', 'no message']);
  });

  it('lose their names only where every read is seen', async () => {
    const code = await built(READER);
    expect(code).not.toMatch(/hello|units/);
    expect(code).toMatch(/opened/);
  });

  it.each([
    ['handed on', 'export const all = text;'],
    ['bound again', 'export const length = (text: string) => text.title;'],
    ['looked up', "export const one = (key: 'title') => text[key];"],
  ])('keep them where `text` is %s', async (_, more) => {
    expect(await built(`${READER}\n${more}`)).toMatch(/hello/);
  });
});
