/** Why Chromium's sandbox does not work on this Linux, and the remedy. */
import fs from 'fs';
import path from 'path';

/**
 * Kernel settings that prevent user namespaces, which Chromium's sandbox requires: the file and the value that
 * forbids them. Sources: Ubuntu 24.04 release notes, "Unprivileged user namespace restrictions"; Debian's kernel up
 * to 10; user_namespaces(7).
 */
const FORBIDDING = [
  ['/proc/sys/kernel/apparmor_restrict_unprivileged_userns', '1'],
  ['/proc/sys/kernel/unprivileged_userns_clone', '0'],
  ['/proc/sys/user/max_user_namespaces', '0'],
];

/**
 * The message for a runtime that ended immediately because the system forbids its sandbox; '' if it does not.
 * @param program the runtime's executable; its sandbox helper is in the same folder
 * @param read returns the text of a file, '' for a missing one
 */
export function sandboxSentence(platform, program, read) {
  if (platform !== 'linux') return '';
  if (!FORBIDDING.some((one) => (read || textOf)(one[0]).trim() === one[1])) return '';
  const helper = path.join(path.dirname(program), 'chrome-sandbox');
  return (
    'This system does not let the desktop runtime create its sandbox (Ubuntu since 24.04), and Gambrel does not run ' +
    'without one, so it opens in the browser. For the desktop window, install the deb package, or allow the helper of ' +
    'this runtime once: sudo chown root:root "' +
    helper +
    '" && sudo chmod 4755 "' +
    helper +
    '"'
  );
}

function textOf(file) {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch {
    return ''; // other kernels have no such file
  }
}
