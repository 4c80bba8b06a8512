/** `npm start`: which Node, whether to build, desktop or browser; and a complete start. */
import { spawn } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');

/** The modules of the starter, plain JavaScript so that an old Node can read it. */
interface Pieces {
  isTooOld(versions: { node: string; napi?: string }): boolean;
  nodeFor(
    root: string,
    versions: { node: string; napi?: string },
    execPath: string,
  ): { path?: string; sentence?: string };
  buildNeeded(root: string): boolean;
  build(root: string, node: string): Promise<{ ok: boolean; output: string }>;
  hindrance(platform: string, env: Record<string, string>, uid: number): string;
  installedRuntime(root: string, env: Record<string, string>): string;
  run(file: string, args: string[]): Promise<{ code: number; neverRan: boolean }>;
  sandboxSentence(platform: string, program: string, read?: (file: string) => string): string;
}
const piece = async (name: string) =>
  (await import(/* @vite-ignore */ join(root, 'electron/start', `${name}.mjs`))) as Pieces;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gambrel-npm-start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function put(file: string, text = '', seconds = 1_000): string {
  const path = join(folder, file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  utimesSync(path, seconds, seconds);
  return path;
}

describe('which Node', () => {
  // Node-API 10 by the Node-API version matrix (nodejs.org/api/n-api.html): from 22.14.0, 23.6.0 and 24.0.0 on.
  it.each([
    ['14.21.3', '8', true],
    ['20.20.2', '9', true],
    ['22.12.0', '9', true],
    ['22.13.0', '9', true],
    ['22.14.0', '10', false],
    ['23.5.0', '9', true],
    ['23.6.0', '10', false],
    ['24.0.0', '10', false],
    ['100.1.0', '12', false],
    ['0.10.48', undefined, true],
  ])('%s, with Node-API %s, too old: %s', async (node, napi, old) => {
    expect((await piece('node')).isTooOld({ node, napi })).toBe(old);
  });

  it('keeps a new one, uses the packaged one for an old one, otherwise reports the requirement', async () => {
    const { nodeFor } = await piece('node');
    const old = { node: '22.13.0', napi: '9' };
    expect(nodeFor(folder, { node: '24.1.0', napi: '10' }, '/usr/bin/node')).toEqual({
      path: '/usr/bin/node',
    });
    const { sentence } = nodeFor(folder, old, '/usr/bin/node');
    expect(sentence).toMatch(/^Gambrel needs Node 22\.14 or newer .* and this is 22\.13\.0\. Run "npm ci"/);
    const windows = process.platform === 'win32';
    put('node_modules/node-releases/bin/node');
    const file = put(
      `node_modules/node-${windows ? 'win' : 'linux'}-${process.arch}/bin/node${windows ? '.exe' : ''}`,
    );
    expect(nodeFor(folder, old, '/usr/bin/node')).toEqual({ path: file });
  });

  it.each([
    ['npm start', 'electron/start.mjs', []],
    ['the built server', 'out/main/serve.js', ['--no-open']],
    ['the tests', 'node_modules/vitest/vitest.mjs', ['run', '--root', root, 'test/book/schema']],
  ])('%s: reports an old Node in one sentence', async (_name, file, args) => {
    // Runs the actual file; a module loaded before it reports Node 22.13.
    const versions = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '22.13.0', napi: '9' } });`;
    const old = put('old.mjs', versions);
    // The starter would use the newer Node of the packages, so it runs in a folder without them.
    if (file === 'electron/start.mjs')
      cpSync(join(root, 'electron'), join(folder, 'electron'), { recursive: true });
    const at = join(file === 'electron/start.mjs' ? folder : root, file);
    const { code, err } = await starting(['--import', old, at, ...args]).ended;
    expect([code, err.trim().split('\n').length]).toEqual([1, 1]);
    expect(err).toMatch(/^Gambrel needs Node 22\.14 or newer/);
  });
});

describe('whether to build', () => {
  const built = [
    'out/main/main.js',
    'out/main/serve.js',
    'out/preload/preload.cjs',
    'out/renderer/index.html',
  ];

  it('builds when a part is missing or older than any source', async () => {
    const { buildNeeded } = await piece('build');
    put('src/ui/deep/down/App.vue', '', 1_000);
    put('resources/species.json', '', 1_000);
    for (const file of built) {
      expect(buildNeeded(folder)).toBe(true);
      put(file, '', 2_000);
    }
    expect(buildNeeded(folder)).toBe(false);
    put('src/ui/deep/down/App.vue', '', 3_000);
    expect(buildNeeded(folder)).toBe(true);
    put('src/ui/deep/down/App.vue', '', 1_000);
    put('out/renderer/index.html', '', 500);
    expect(buildNeeded(folder)).toBe(true);
  });

  it('reports the build tool’s output when it fails, and missing packages', async () => {
    const { build } = await piece('build');
    expect(await build(folder, process.execPath)).toMatchObject({
      ok: false,
      output: expect.stringMatching(/npm ci/),
    });
    put(
      'node_modules/electron-vite/bin/electron-vite.js',
      'console.error("line 7 is wrong"); process.exit(3)',
    );
    expect(await build(folder, process.execPath)).toEqual({ ok: false, output: 'line 7 is wrong\n' });
  });
});

describe('desktop or browser', () => {
  it('reports what prevents the desktop', async () => {
    const { hindrance } = await piece('runtime');
    expect(hindrance('linux', {}, 1000)).toMatch(/no display/);
    expect(hindrance('linux', { DISPLAY: ':0' }, 0)).toMatch(/root/);
    expect(hindrance('linux', { WAYLAND_DISPLAY: 'wayland-0' }, 1000)).toBe('');
    expect(hindrance('darwin', {}, 501)).toBe('');
    expect(hindrance('win32', {}, -1)).toBe('');
  });

  it.runIf(process.platform === 'linux')('finds a complete runtime, or the named folder', async () => {
    const { installedRuntime } = await piece('runtime');
    expect(installedRuntime(folder, {})).toBe('');
    const usual = put('node_modules/electron/dist/electron');
    expect(installedRuntime(folder, {})).toBe(''); // Unpacking was interrupted.
    put('node_modules/electron/path.txt', 'electron');
    expect(installedRuntime(folder, {})).toBe(usual);
    const other = put('elsewhere/electron');
    expect(installedRuntime(folder, { ELECTRON_OVERRIDE_DIST_PATH: dirname(other) })).toBe(other);
    expect(installedRuntime(folder, { ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'empty') })).toBe('');
  });

  it.runIf(process.platform === 'linux')(
    'distinguishes a runtime that cannot run from one that ended',
    async () => {
      const { run } = await piece('run');
      const script = (text: string) => {
        const file = put('electron', `#!/bin/sh\n${text}\n`);
        chmodSync(file, 0o755);
        return file;
      };
      expect(await run(script('exit 0'), [])).toEqual({ code: 0, neverRan: false });
      expect(await run(script('exit 1'), [])).toEqual({ code: 1, neverRan: false });
      expect(await run(script('exit 127'), [])).toEqual({ code: 127, neverRan: true });
      expect(await run(script('kill -TRAP $$'), [])).toEqual({ code: 133, neverRan: true });
      expect(await run(join(folder, 'nothing'), [])).toEqual({ code: 127, neverRan: true });
    },
  );
});

describe('a runtime without a sandbox', () => {
  const system = (values: Record<string, string>) => (file: string) => values[file] ?? '';

  it('reports the remedy if the system forbids one', async () => {
    const { sandboxSentence } = await piece('sandbox');
    const forbidding: Record<string, string>[] = [
      { '/proc/sys/kernel/apparmor_restrict_unprivileged_userns': '1\n' }, // Ubuntu 24.04
      { '/proc/sys/kernel/unprivileged_userns_clone': '0\n' },
      { '/proc/sys/user/max_user_namespaces': '0\n' },
    ];
    for (const values of forbidding)
      expect(sandboxSentence('linux', '/x/dist/electron', system(values))).toMatch(
        /opens in the browser\. .*deb package, .*chown root:root "\/x\/dist\/chrome-sandbox" && sudo chmod 4755 "\/x\/dist\/chrome-sandbox"$/,
      );
  });

  it('reports another error if the system allows one', async () => {
    const { sandboxSentence } = await piece('sandbox');
    const allowed = system({
      '/proc/sys/kernel/apparmor_restrict_unprivileged_userns': '0\n',
      '/proc/sys/kernel/unprivileged_userns_clone': '1\n',
      '/proc/sys/user/max_user_namespaces': '127000\n',
    });
    expect(sandboxSentence('linux', '/x/electron', allowed)).toBe('');
    expect(sandboxSentence('linux', '/x/electron', system({}))).toBe('');
    expect(sandboxSentence('darwin', '/x/Electron', allowed)).toBe('');
  });
});

describe.runIf(process.platform !== 'win32')('the started program', () => {
  /** A program that counts signals and checks for its parent; each line of its output is passed on. */
  function startOf(program: string) {
    const file = put('program.mjs', program);
    const starter = put(
      'starter.mjs',
      `import { run } from ${JSON.stringify(join(root, 'electron/start/run.mjs'))};
       process.exitCode = (await run(process.execPath, [${JSON.stringify(file)}])).code;`,
    );
    const child = spawn(process.execPath, [starter], {
      stdio: ['ignore', 'pipe', 'inherit'],
      detached: true,
    });
    let out = '';
    child.stdout.on('data', (text: Buffer) => (out += text.toString()));
    return { child, out: () => out, ended: new Promise((done) => child.on('close', done)) };
  }

  it('receives Ctrl-C once, which the terminal sends to the group and npm forwards', async () => {
    const { child, out, ended } = startOf(`
      let heard = 0;
      process.on('SIGINT', () => {
        heard += 1;
        if (heard === 1) setTimeout(() => { console.log('heard', heard); process.exit(7); }, 600);
      });
      setTimeout(() => process.exit(3), 15_000); // whatever happens, nothing stays behind
      console.log('there');`);
    await expect.poll(out, { timeout: 10_000 }).toBe('there\n');
    process.kill(-(child.pid ?? 0), 'SIGINT');
    await new Promise((done) => setTimeout(done, 100));
    child.kill('SIGINT');
    expect(await ended).toBe(7);
    expect(out()).toBe('there\nheard 1\n');
  });

  it('ends when its parent was killed', async () => {
    const watch = join(root, 'electron/parent-watch.ts');
    const done = join(folder, 'ended');
    const { child, out } = startOf(`
      import { writeFileSync } from 'node:fs';
      import { whenParentGone } from ${JSON.stringify(watch)};
      whenParentGone(process.env, () => { writeFileSync(${JSON.stringify(done)}, ''); process.exit(0); }, 50);
      setTimeout(() => process.exit(3), 15_000); // whatever happens, nothing stays behind
      console.log(process.pid);`);
    await expect.poll(out, { timeout: 10_000 }).toMatch(/^\d+\n$/);
    child.kill('SIGKILL');
    await expect.poll(() => existsSync(done), { timeout: 5_000 }).toBe(true);
  });
});

it('opens the demo in the browser, forwards Ctrl-C and ends with code 0', async () => {
  const running = starting([
    join(root, 'electron/start.mjs'),
    '--browser',
    '--demo',
    '--port',
    '0',
    '--no-open',
  ]);
  await expect
    .poll(running.out, { timeout: 90_000 })
    .toMatch(/Gambrel is open at http:\/\/127\.0\.0\.1:\d+\/#code=/);
  expect(running.out()).toMatch(/^(Building [^\n]+\n)?Opening in the browser\.\n/);
  running.child.kill('SIGINT');
  expect(await running.ended).toMatchObject({ code: 0, err: '' });
}, 120_000);

function starting(args: string[]) {
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  let err = '';
  child.stdout.on('data', (text: Buffer) => (out += text.toString()));
  child.stderr.on('data', (text: Buffer) => (err += text.toString()));
  const ended = new Promise<{ code: number | null; err: string }>((done) =>
    child.on('close', (code) => done({ code, err })),
  );
  return { child, out: () => out, ended };
}
