/** `npm run check:workflows`: GitHub's own checks of the workflow files, and ours. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { languageFaults } from './github-language.mjs';
import { ruleFaults } from './own-rules.mjs';

const root = resolve(import.meta.dirname, '../..');
const folder = join(root, '.github/workflows');

for (const name of readdirSync(folder)) {
  const text = readFileSync(join(folder, name), 'utf8');
  const language = await languageFaults(name, text);
  const faults = language.length > 0 ? language : ruleFaults(name, text, root);
  for (const fault of faults) console.error(fault);
  if (faults.length > 0) process.exitCode = 1;
}
