/**
 * `npm start`: builds what is outdated, then opens the desktop app, or the browser where that cannot run. This file
 * and those in `start/` use only syntax that Node 14 can parse, so that an old Node gets a message instead of a
 * syntax error.
 */
import path from 'path';
import { fileURLToPath } from 'url';
import { build, buildNeeded } from './start/build.mjs';
import { nodeFor } from './start/node.mjs';
import { run } from './start/run.mjs';
import { findRuntime } from './start/runtime.mjs';
import { sandboxSentence } from './start/sandbox.mjs';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const args = process.argv.slice(2).filter((arg) => arg !== '--browser');
const browserWanted = args.length < process.argv.length - 2;

function say(sentence) {
  console.log(sentence);
}

async function start() {
  const node = nodeFor(root, process.versions, process.execPath);
  if (node.sentence) {
    console.error(node.sentence);
    return 1;
  }
  if (node.path !== process.execPath) {
    return (await run(node.path, [fileURLToPath(import.meta.url)].concat(process.argv.slice(2)))).code;
  }
  if (buildNeeded(root)) {
    say('Building Gambrel; this takes a few seconds.');
    const built = await build(root, node.path);
    if (!built.ok) {
      console.error(built.output);
      console.error('Gambrel could not be built. The messages above say why.');
      return 1;
    }
  }
  const runtime = browserWanted
    ? { sentence: 'Opening in the browser.' }
    : await findRuntime(root, node.path, say);
  if (runtime.path) {
    const ended = await run(runtime.path, [root].concat(args));
    if (!ended.neverRan) return ended.code;
    say(
      sandboxSentence(process.platform, runtime.path) ||
        'The desktop runtime does not run on this computer, so Gambrel opens in the browser.',
    );
  } else {
    say(runtime.sentence);
  }
  return (await run(node.path, [path.join(root, 'out', 'main', 'serve.js')].concat(args))).code;
}

start().then((code) => {
  process.exitCode = code;
});
