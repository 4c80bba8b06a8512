/** Which Node runs the program: this one if it is new enough, else the one that came with the packages. */
import fs from 'fs';
import path from 'path';

/** The oldest Node that the record book's SQLite package and the build tools run on. */
const OLDEST = [22, 12];

/** Whether a version such as `v20.20.2` is too old. */
export function isTooOld(version) {
  const numbers = version.replace(/^v/, '').split('.').map(Number);
  return numbers[0] < OLDEST[0] || (numbers[0] === OLDEST[0] && numbers[1] < OLDEST[1]);
}

/** `{ path }` of the Node to use, or the `{ sentence }` that says what is needed. */
export function nodeFor(root, version, execPath) {
  if (!isTooOld(version)) return { path: execPath };
  const packages = path.join(root, 'node_modules');
  const names = fs.existsSync(packages) ? fs.readdirSync(packages) : [];
  for (const name of names.filter((name) => /^node-(linux|win|darwin)-/.test(name))) {
    const file = path.join(packages, name, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
    if (name.indexOf(process.arch) > 0 && fs.existsSync(file)) return { path: file };
  }
  return {
    sentence:
      'Gambrel needs Node ' +
      OLDEST.join('.') +
      ' or newer and this is ' +
      version +
      ': run "npm ci" here, which brings one for Linux and Windows, or install a newer one from nodejs.org.',
  };
}
