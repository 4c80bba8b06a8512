/** Collects during the build which packages are included and under which license, for the page About. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

/** One license text and the packages under it, as the page About shows them. */
interface Licence {
  licence: string;
  /** The text of the license and its notices; empty if the packages contain none. */
  text: string;
  packages: { name: string; version: string }[];
}

/** The file with the list, among the window's files. */
const FILE = 'licences.json';

/**
 * Plugins for the bundles of one build: `gather` collects the packages of its bundle; `emit` does too and writes
 * the list, so it belongs to the bundle that is built last.
 * @param shipped names of packages that ship beside the bundles
 */
export function licencePlugins(root: string, shipped: readonly string[]): { gather: Plugin; emit: Plugin } {
  const folders = new Set(shipped.map((name) => join(root, 'node_modules', name)));
  const note = (ids: Iterable<string>) => {
    for (const id of ids) {
      const folder = packageFolder(id);
      if (folder) folders.add(folder);
    }
  };
  return {
    gather: {
      name: 'gather-licences',
      generateBundle() {
        note(this.getModuleIds());
      },
    },
    emit: {
      name: 'emit-licences',
      generateBundle() {
        note(this.getModuleIds());
        this.emitFile({ type: 'asset', fileName: FILE, source: JSON.stringify(listLicences([...folders])) });
      },
    },
  };
}

/** The package folder of a bundled file; null for our own code. The bundler uses forward slashes everywhere. */
function packageFolder(id: string): string | null {
  return /^\0*(.*\/node_modules\/(?:@[^/]+\/)?[^/@]+)\//.exec(id)?.[1] ?? null;
}

/**
 * Packages with the same text are grouped, because the same license would appear a hundred times. A version in
 * several folders is listed once.
 */
function listLicences(folders: readonly string[]): Licence[] {
  const list = new Map<string, Licence>();
  const listed = new Set<string>();
  for (const folder of folders.toSorted()) {
    const { name, version, licence, text } = readLicence(folder);
    if (listed.has(`${name} ${version}`)) continue;
    listed.add(`${name} ${version}`);
    const key = `${licence}\n${text}`;
    const known = list.get(key) ?? { licence, text, packages: [] };
    known.packages.push({ name, version });
    list.set(key, known);
  }
  return [...list.values()];
}

function readLicence(folder: string) {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, unknown>;
  const { name, version, license } = about;
  if (typeof name !== 'string' || typeof version !== 'string' || typeof license !== 'string')
    throw new Error(`${folder} does not say its name, version and licence`);
  const files = readdirSync(folder).filter((file) => /^(licen[cs]e|notice)/i.test(file));
  const text = files.map((file) => readFileSync(join(folder, file), 'utf8').trim()).join('\n\n');
  return { name, version, licence: license, text };
}
