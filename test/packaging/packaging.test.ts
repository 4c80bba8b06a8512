/** What goes into the installers, seen in a program that is really packed, around a placeholder of the runtime. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import builder from '../../electron/packaging/builder.json';
import { ICNS_EDGES, ICO_EDGES } from '../../electron/packaging/icon-files.ts';
import { newestInstaller } from '../../electron/installer-names.ts';
import { fusesOf, SHIPPED_FUSES } from '../smoke/fuses.ts';
import { pack } from './placeholder.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const ASAR = join(ROOT, 'node_modules/@electron/asar/bin/asar.mjs');
const folder = mkdtempSync(join(tmpdir(), 'gambrel-pack-'));
let packed: string;
let inside: string[];

beforeAll(async () => {
  packed = await pack(folder, 'linux', 'x64');
  const archive = join(packed, 'resources/app.asar');
  inside = execFileSync(process.execPath, [ASAR, 'list', archive], { encoding: 'utf8' })
    .split(/\r?\n/)
    .filter(Boolean)
    .map((path) => path.replaceAll('\\', '/'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the packed program', () => {
  it('holds every built file, and no demo that was made beside them', () => {
    expect(inside.filter((path) => path.endsWith('.gambrel'))).toEqual([]);
    const built = readdirSync(join(ROOT, 'out'), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !/^demo\.gambrel|-seasons-/.test(entry.name))
      .map(({ parentPath, name }) => join(parentPath, name).slice(ROOT.length).replaceAll('\\', '/'));
    expect(built.length).toBeGreaterThan(20);
    expect(built.filter((file) => !inside.includes(file))).toEqual([]);
  });

  it('holds nothing else but the two packages that ship', () => {
    const heads = inside.map((path) =>
      path
        .split('/')
        .slice(1, path.startsWith('/node_modules/') ? 3 : 2)
        .join('/'),
    );
    expect([...new Set(heads)].toSorted()).toEqual([
      'LICENSE',
      'node_modules',
      'node_modules/better-sqlite3',
      'node_modules/highs',
      'out',
      'package.json',
    ]);
    expect(inside).toContain('/node_modules/highs/build/highs.wasm');
    expect(inside.filter((path) => /\/better-sqlite3\/(deps|src|build)\b/.test(path))).toEqual([]);
  });

  it('has the addon of its own system beside the archive, where the system can load it', () => {
    const unpacked = join(packed, 'resources/app.asar.unpacked');
    const addons = readdirSync(unpacked, { recursive: true })
      .map(String)
      .filter((path) => path.endsWith('.node'));
    expect(addons).toEqual([join('node_modules/better-sqlite3/prebuilds/linux-x64.node')]);
    expect(inside.filter((path) => path.endsWith('.node'))).toEqual([
      '/node_modules/better-sqlite3/prebuilds/linux-x64.node',
    ]);
  });

  it('needs nothing that is not in it: its desk opens a book and its solver starts, far from our packages', () => {
    const out = join(folder, 'unpacked');
    execFileSync(process.execPath, [ASAR, 'extract', join(packed, 'resources/app.asar'), out]);
    const probe = `
      import Database from 'better-sqlite3';
      import highs from 'highs';
      const db = new Database(':memory:');
      const solver = await highs();
      const { ObjectiveValue } = solver.solve('Maximize obj: x Subject To c1: x <= 4 End');
      console.log(db.prepare('SELECT 1 + 1').pluck().get(), ObjectiveValue);
      await import('./out/main/desk.js');`;
    const withPort = `process.parentPort = { on: (name) => console.log('listens to', name) };\n${probe}`;
    const said = execFileSync(process.execPath, ['--input-type=module', '-e', withPort], {
      cwd: out,
      encoding: 'utf8',
    });
    expect(said.trim().split(/\r?\n/)).toEqual(['2 4', 'listens to message']);
  });

  it('is closed where the runtime can be closed: each fuse as we set it', () => {
    expect(fusesOf(join(packed, 'gambrel'))).toBe(SHIPPED_FUSES);
  });

  it('brings the licences of the runtime and of the packages', () => {
    for (const file of ['LICENSE.electron.txt', 'LICENSES.chromium.html'])
      expect(existsSync(join(packed, file)), file).toBe(true);
    expect(inside).toContain('/out/renderer/licences.json');
  });
});

describe('the installers', () => {
  it('take the addon of the system that they are for, on whichever they are built', () => {
    const offered = readdirSync(join(ROOT, 'node_modules/better-sqlite3/prebuilds'));
    for (const [system, own] of [
      ['win', 'win32'],
      ['mac', 'darwin'],
      ['linux', 'linux'],
    ] as const) {
      expect(builder[system].files[1]).toBe(`!node_modules/better-sqlite3/prebuilds/!(${own}-\${arch}).node`);
      expect(offered).toContain(`${own}-x64.node`);
    }
  });

  it('are named so that a newer one is known by its name', () => {
    const nameOf = (pattern: string, os: string, ext: string) =>
      pattern
        .replace('${version}', '9.0.0')
        .replace('${os}', os)
        .replace('${arch}', 'x64')
        .replace('${ext}', ext);
    for (const [platform, pattern, os, ext] of [
      ['win32', builder.nsis.artifactName, 'win', 'exe'],
      ['win32', builder.portable.artifactName, 'win', 'exe'],
      ['darwin', builder.artifactName, 'mac', 'dmg'],
      ['linux', builder.artifactName, 'linux', 'AppImage'],
      ['linux', builder.artifactName, 'linux', 'deb'],
    ] as const) {
      const file = nameOf(pattern, os, ext);
      expect(newestInstaller([file], platform, '0.1.0')).toEqual({ file, version: '9.0.0' });
    }
    expect(nameOf(builder.nsis.artifactName, 'win', 'exe')).not.toBe(
      nameOf(builder.portable.artifactName, 'win', 'exe'),
    );
  });

  it('start without libfuse2 where an AppImage is for Linux', () => {
    // The older toolset's runtime loads libfuse.so.2, which Ubuntu 24.04 has not, and its desktop file has --no-sandbox.
    expect(builder.toolsets.appimage).toMatch(/^1\./);
  });

  it('hand files over as paths where the packager lets them, and are one window with their launcher', () => {
    expect(builder.deb.executableArgs).toEqual(['%F']);
    // Electron takes the window's identity from the name of the desktop file, which is the program's.
    expect(builder.extraMetadata.desktopName).toBe(`${builder.linux.executableName}.desktop`);
    expect(builder.linux.syncDesktopName).toBe(true);
  });

  it('ask no server for anything, and leave the books when they are removed', () => {
    expect(builder.publish).toBe(null);
    expect(builder.nsis.deleteAppDataOnUninstall).toBe(false);
  });
});

describe('the icons', () => {
  const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  /** The edges of a PNG: width and height stand at byte 16. */
  const edges = (png: Buffer) => [png.readUInt32BE(16), png.readUInt32BE(20)];

  it('of Windows hold each size as a PNG of that size', () => {
    const ico = readFileSync(join(ROOT, builder.win.icon));
    expect([ico.readUInt16LE(2), ico.readUInt16LE(4)]).toEqual([1, ICO_EDGES.length]);
    for (const [at, edge] of ICO_EDGES.entries()) {
      const entry = ico.subarray(6 + 16 * at);
      const png = ico.subarray(entry.readUInt32LE(12), entry.readUInt32LE(12) + entry.readUInt32LE(8));
      expect(png.subarray(0, 8)).toEqual(PNG);
      expect([entry.readUInt8(0) || 256, ...edges(png)]).toEqual([edge, edge, edge]);
    }
  });

  it('of Apple hold each size as a PNG, up to 1024', () => {
    const icns = readFileSync(join(ROOT, builder.mac.icon));
    expect([icns.toString('latin1', 0, 4), icns.readUInt32BE(4)]).toEqual(['icns', icns.length]);
    const found = new Set<number>();
    for (let at = 8; at < icns.length; at += icns.readUInt32BE(at + 4)) {
      const [width = 0, height = 0] = edges(icns.subarray(at + 8));
      expect(width).toBe(height);
      found.add(width);
    }
    expect([...found].toSorted((a, b) => a - b)).toEqual(ICNS_EDGES.toSorted((a, b) => a - b));
  });

  it('of Linux are named by their size', () => {
    const place = join(ROOT, builder.linux.icon);
    expect(readdirSync(place)).toContain('256x256.png');
    for (const name of readdirSync(place)) {
      expect(edges(readFileSync(join(place, name))), name).toEqual(
        name.replace('.png', '').split('x').map(Number),
      );
      expect(statSync(join(place, name)).size).toBeGreaterThan(200);
    }
  });
});
