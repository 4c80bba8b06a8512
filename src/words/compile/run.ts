/** `npm run words` compiles the catalogue; with `--check`, it also looks for messages that nothing uses. */
import { join } from 'node:path';
import { compileWords } from './compile.ts';
import { readCatalogue, type Catalogue } from './catalogue.ts';
import { gaps, missingMessages } from './check.ts';
import { languageLines, SOURCE_LANGUAGE } from '../languages.ts';
import { unusedFaults } from './unused.ts';

/** How many lines of what a language lacks are shown. */
const SHOWN = 10;
const COMPLETE = 'Complete. Remove “draft” in languages.ts, so that it stays so.';
const ROOT = join(import.meta.dirname, '../../..');

try {
  compileWords(ROOT);
  if (process.argv.includes('--check')) {
    const catalogue = readCatalogue(join(ROOT, 'src/words'));
    const faults = [...unusedFaults(catalogue, ROOT), ...missingMessages(catalogue)];
    for (const fault of faults) console.error(fault);
    tellGaps(catalogue);
    process.exitCode = faults.length > 0 ? 1 : 0;
  }
} catch (error) {
  console.error((error as Error).message);
  process.exitCode = 1;
}

/** What the languages lack that are being translated. It fails no check. */
function tellGaps({ languages }: Catalogue): void {
  const source = languages.get(SOURCE_LANGUAGE) ?? new Map<string, never>();
  for (const [language, areas] of languages) {
    if (!languageLines[language]?.draft) continue;
    const missing = gaps(language, areas, source);
    const more = missing.length > SHOWN ? [`… and ${missing.length - SHOWN} more`] : [];
    const lines = missing.length > 0 ? [...missing.slice(0, SHOWN), ...more] : [COMPLETE];
    console.log([`${language}:`, ...lines].join('\n  '));
  }
}
