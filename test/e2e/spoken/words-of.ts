/** What a window of another language calls things: read from the catalogue, never typed in a test. */
import { allNames } from '../../../src/desk/names/names.ts';
import { inLanguage } from '../../../src/words/area.ts';
import { text as batch } from '../../../src/words/compiled/window/batch.ts';
import { text as bill } from '../../../src/words/compiled/window/bill.ts';
import { text as grinder } from '../../../src/words/compiled/window/grinder.ts';
import { text as intake } from '../../../src/words/compiled/window/intake.ts';
import { text as orders } from '../../../src/words/compiled/window/orders.ts';
import { text as pickup } from '../../../src/words/compiled/window/pickup.ts';
import { text as table } from '../../../src/words/compiled/window/table.ts';
import { text as common } from '../../../src/words/compiled/shared/common.ts';
import type { Language } from '../../../src/words/languages.ts';
import { loadLanguage } from '../../../src/words/load.ts';

const AREAS = { batch, bill, common, grinder, intake, orders, pickup, table };

export type WordsOf = typeof AREAS & {
  /** The built-in name with this key of the catalogue, such as `species.elk.name`. */
  named(key: string): string;
};

export async function wordsOf(language: Language): Promise<WordsOf> {
  await loadLanguage(language);
  const names = allNames(language);
  const areas = Object.fromEntries(
    Object.entries(AREAS).map(([name, text]) => [name, inLanguage<object>(text, language)]),
  );
  return {
    ...(areas as typeof AREAS),
    named(key) {
      const name = names.get(key);
      if (name === undefined) throw new Error(`Nothing has the name ${key}.`);
      return name;
    },
  };
}
