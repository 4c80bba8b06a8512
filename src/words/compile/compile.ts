/** Compiles the catalogue of this project; also a Vite plugin that does so before a build or a test run. */
import { join } from 'node:path';
import { readCatalogue } from './catalogue.ts';
import { catalogueFaults } from './check.ts';
import { writeCompiled } from './write.ts';

/**
 * @param root the project's folder
 * @throws Error with every fault, each naming its file and key
 */
export function compileWords(root: string): void {
  const folder = join(root, 'src/words');
  const catalogue = readCatalogue(folder);
  const faults = catalogueFaults(catalogue);
  if (faults.length > 0) throw new Error(`src/words cannot be compiled:\n${faults.join('\n')}`);
  writeCompiled(catalogue, join(folder, 'compiled'));
}

/** For electron-vite and vitest: the compiled words are there, and as the messages are, before anything imports them. */
export function words(root: string): { name: string; config(): void } {
  return { name: 'words', config: () => compileWords(root) };
}
