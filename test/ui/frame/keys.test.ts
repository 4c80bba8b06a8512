/** The list of keys compared with the keys that the code handles. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutPart } from '../../../src/bridge/contract.ts';
import { places } from '../../../src/ui/frame/places.ts';
import { partStyle } from '../../../src/ui/ladder/ladder.ts';
import { text } from '../../../src/words/compiled/window/keys.ts';
import { keyLines } from '../../../src/ui/card/keys.ts';
import { text as words } from '../../../src/words/compiled/shared/common.ts';

const UI = join(import.meta.dirname, '../../../src/ui');
const files = globSync('**/*.{vue,ts}', { cwd: UI }).filter((file) => !/^(texts|samples)/.test(file));
const sources = files.map((file) => readFileSync(join(UI, file), 'utf8'));

/** Keys that need no explanation: they belong to typing, or to another key. */
const UNTOLD = new Set(['Shift', 'Backspace', 'Tab']);
/** How the code checks for a key, with its name in the list. */
const ASKS: readonly [RegExp, (found: string) => string][] = [
  [/\bevent\.key(?:\.to(?:Lower|Upper)Case\(\))? [!=]== '([^']+)'/g, (key) => key],
  [/\bkey: '([A-Z])',\s+(?:label|does)/g, (key) => key],
  [/\b(Arrow(?:Up|Down|Left|Right))\b/g, (key) => key],
  [
    /@key(?:down|up)\.(?:ctrl\.)?(enter|esc|space)/g,
    (key) => ({ enter: 'Enter', esc: 'Escape' })[key] ?? ' ',
  ],
  [/Digit\(\[0-9\]\)/g, () => 'Alt+0–9'],
  [/\/\^\[1-9\]\$\//g, () => '1–9'],
];

const listened = new Set([
  ...(Object.keys(words.part) as CutPart[]).map((part) => partStyle[part].letter),
  ...sources.flatMap((source) =>
    ASKS.flatMap(([ask, named]) => [...source.matchAll(ask)].map((found) => named(found[1] ?? ''))),
  ),
]);
for (const key of UNTOLD) listened.delete(key);

describe('the list of keys', () => {
  it('contains every key that the window handles, and no other', () =>
    expect([...new Set(keyLines.flatMap(({ keys }) => keys))].sort()).toEqual([...listened].sort()));

  it('has the right number of pages', () => expect(places).toHaveLength(10));

  it('includes the keys shown on buttons', () => {
    const shown = sources.flatMap((source) =>
      [...source.matchAll(/<Button\b[^>]*?\skeys="([^"]+)"/g)].map((found) =>
        found[1]?.replace('⏎', 'Enter'),
      ),
    );
    expect(shown.length).toBeGreaterThan(2);
    for (const keys of shown) expect(keyLines.map(({ code }) => text.shown[code])).toContain(keys);
  });
});
