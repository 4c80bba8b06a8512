/** `npm run words` compiles the catalogue; with `--check`, it also looks for messages that nothing uses. */
import { join } from 'node:path';
import { compileWords } from './compile.ts';
import { readCatalogue } from './catalogue.ts';
import { unusedFaults } from './unused.ts';

const ROOT = join(import.meta.dirname, '../../..');

try {
  compileWords(ROOT);
  const unused = process.argv.includes('--check')
    ? unusedFaults(readCatalogue(join(ROOT, 'src/words')), ROOT)
    : [];
  for (const fault of unused) console.error(fault);
  process.exitCode = unused.length > 0 ? 1 : 0;
} catch (error) {
  console.error((error as Error).message);
  process.exitCode = 1;
}
