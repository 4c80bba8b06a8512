/** GitHub's own checks of workflow files, as its editors run them: structure, expressions, needs, schedules. */
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { TextDocument } from 'vscode-languageserver-textdocument';

// The packages are made for bundlers and import JSON without saying so, which Node refuses.
registerHooks({
  load: (url, context, next) =>
    url.includes('/node_modules/@actions/') && url.endsWith('.json')
      ? { format: 'json', shortCircuit: true, source: readFileSync(new URL(url)) }
      : next(url, context),
});
const { validate } = await import('@actions/languageservice');
/** The service remembers what it found by the address, so that each text needs one of its own. */
let texts = 0;

/**
 * @param {string} name file name
 * @param {string} text content
 * @returns {Promise<string[]>} one line for each fault
 */
export async function languageFaults(name, text) {
  const document = TextDocument.create(`file:///.github/workflows/${(texts += 1)}/${name}`, 'yaml', 1, text);
  const found = await validate(document);
  return found.map(({ range, message }) => `${name}:${range.start.line + 1}: ${message}`);
}
