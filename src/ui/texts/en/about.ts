/** Texts of the page About. */
export const aboutText = {
  title: 'About Gambrel',
  version: (version: string) => `Version ${version}`,
  purpose:
    'A tool for game processors, from the hook to the bill. It works without the internet and sends nothing anywhere.',
  runsIn: 'Runs in',
  desktop: (electron: string, chromium: string, node: string) =>
    `Electron ${electron}, with Chromium ${chromium} and Node ${node}`,
  browser: (agent: string) => `The browser: ${agent}`,
  own: 'Gambrel is free software under the MIT license.',
  packages: 'Made with the work of others',
  packagesHow: (count: number) =>
    `${count} packages go into Gambrel. Open one to read its license. The desktop runtime brings its own list beside the program, LICENSES.chromium.html.`,
  together: ([first = '', ...others]: readonly string[]) =>
    others.length > 0 ? `${first} and ${others.length} more` : first,
  versions: (packages: readonly { name: string; version: string }[]) =>
    packages.map(({ name, version }) => `${name} ${version}`).join(', '),
  noText: 'The package names its license and brings no copy of it.',
  missing: 'The list of licenses could not be read: install Gambrel again, and it is there.',
  closing: 'Gambrel is closing',
  closingHow: 'The book is backed up and closed; this window goes away by itself.',
};
