/** Selects the Node that runs the program: the current one if suitable, else the one from the packages. */
import fs from 'fs';
import path from 'path';

/**
 * The Node-API that the SQLite package is built for. A Node without it loads the package and crashes with a
 * segmentation fault, so this number is checked and not the version: Node 22.14 has it and Node 23.5 does not.
 */
const NODE_API = 10;

/** Whether a Node, by its `process.versions`, is too old for the record book. */
export function isTooOld(versions) {
  return !(Number(versions.napi) >= NODE_API);
}

/** The message for a Node that is too old; empty otherwise. */
export function nodeSentence(versions) {
  if (!isTooOld(versions)) return '';
  return (
    'Gambrel needs Node 22.14 or newer (of Node 23: 23.6 or newer), and this is ' +
    versions.node +
    '. Run "npm ci" here, which installs one for Linux and Windows, or get a newer one from nodejs.org.'
  );
}

/** `{ path }` of the Node to use, or `{ sentence }` with what is needed. */
export function nodeFor(root, versions, execPath) {
  if (!isTooOld(versions)) return { path: execPath };
  const packages = path.join(root, 'node_modules');
  const names = fs.existsSync(packages) ? fs.readdirSync(packages) : [];
  for (const name of names.filter((name) => /^node-(linux|win|darwin)-/.test(name))) {
    const file = path.join(packages, name, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
    if (name.indexOf(process.arch) > 0 && fs.existsSync(file)) return { path: file };
  }
  return { sentence: nodeSentence(versions) };
}
