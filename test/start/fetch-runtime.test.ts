/** Fetches the runtime completely: from a local server, through Electron's own cache, checksum and unpacking. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'; // prettier-ignore
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CERTIFICATE, openProxy, serveBadly, type BadLine, type Proxy, type Turn } from './bad-line.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const VERSION = '45.0.0';
const PROGRAM = { win32: 'electron.exe', darwin: 'Electron.app/Contents/MacOS/Electron' }[process.platform as string] ?? 'electron'; // prettier-ignore
/** Incompressible, so that the file has the size of its content: 2 MB. */
const FILLING = Buffer.concat(Array.from({ length: 62_500 }, (_, at) => createHash('sha256').update(String(at)).digest())); // prettier-ignore
const ZIP = Buffer.from(
  zipSync(
    { [PROGRAM]: Buffer.from('the runtime'), version: Buffer.from(VERSION), filling: FILLING },
    { level: 0 },
  ),
);

let folder: string;
let line: BadLine;
const open: (BadLine | Proxy)[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gambrel-runtime-'));
  const electron = join(folder, 'node_modules/electron');
  mkdirSync(electron, { recursive: true });
  cpSync(join(ROOT, 'node_modules/electron/install.js'), join(electron, 'install.js'));
  writeFileSync(join(electron, 'package.json'), JSON.stringify({ version: VERSION }));
  for (const scope of ['@electron', '@electron-internal'])
    symlinkSync(join(ROOT, 'node_modules', scope), join(folder, 'node_modules', scope), 'junction');
  expectChecksumOf(ZIP);
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((one) => one.close()));
  rmSync(folder, { recursive: true, force: true });
});

function expectChecksumOf(content: Buffer): void {
  const name = `electron-v${VERSION}-${process.platform}-${process.arch}.zip`;
  const checksums = { [name]: createHash('sha256').update(content).digest('hex') };
  writeFileSync(join(folder, 'node_modules/electron/checksums.json'), JSON.stringify(checksums));
}
async function serving(turns: readonly Turn[], how: { secure?: boolean } = {}): Promise<void> {
  open.push((line = await serveBadly(ZIP, turns, how)));
}
/** The range of a resumed request. A cut may lose buffered data, so it starts slightly before what was sent. */
const goesOnAt = (request: number) => Number(/^bytes=(\d+)-$/.exec(line.asked[request] ?? '')?.[1]);
const runtime = () => join(folder, 'node_modules/electron/dist', PROGRAM);
const arrived = () => existsSync(runtime()) && readFileSync(runtime(), 'utf8') === 'the runtime';

const module = (name: string) => JSON.stringify(new URL(`../../electron/start/${name}.mjs`, import.meta.url));

/** Fetches in a process with its own environment; resolves to its terminal output. */
async function fetchIt(env: Record<string, string> = {}): Promise<{ shown: string; sentence: string }> {
  const said = await inProcess(
    `const { fetchRuntime } = await import(${module('fetch-runtime')});
    const times = { stall: 1000, pauses: [1, 1] };
    process.stdout.write('=' + (await fetchRuntime(${JSON.stringify(folder)}, process.execPath, process.stdout, times)));`,
    env,
  );
  const [shown = '', sentence = ''] = said.split('=');
  return { shown, sentence };
}

async function inProcess(script: string, env: Record<string, string> = {}): Promise<string> {
  const clean = Object.entries(process.env).filter(([name]) => !/proxy|^electron_|^npm_config_/i.test(name));
  const child = spawn(process.execPath, ['--input-type=module', '-e', script], {
    env: {
      ...Object.fromEntries(clean),
      electron_config_cache: join(folder, 'cache'),
      ELECTRON_MIRROR: `${line.address}/`,
      ...env,
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => (said += text.toString()));
  await new Promise((done) => child.once('close', done));
  return said;
}

describe('the runtime', () => {
  it('arrives over a connection that stalls and breaks, shows progress, and leaves no temporary files', async () => {
    await serving([{ stallAfter: 500_000 }, { cutAfter: 700_000 }, 'whole']);
    const { shown, sentence } = await fetchIt();
    expect(sentence).toBe('');
    expect(arrived()).toBe(true);
    expect(shown).toMatch(/^ {2}0 MB of 2 MB \(0%\)\n/);
    expect(shown).toMatch(/\nTrying again: no more data arrived.*\.\n/);
    expect(shown).toMatch(/\nTrying again: the connection was lost\.\n/);
    expect(shown).toMatch(/ {2}2 MB of 2 MB \(100%\)\n$/);
    expect(readdirSync(join(folder, 'node_modules/.cache'))).toEqual([]);
  });

  it('is not downloaded again if it is in the cache', async () => {
    await serving(['whole']);
    await fetchIt();
    rmSync(join(folder, 'node_modules/electron/dist'), { recursive: true });
    await fetchIt();
    expect(line.asked).toHaveLength(1);
    expect(arrived()).toBe(true);
  });

  it('resumes in the next run from the partial file, and says so', async () => {
    await serving([{ cutAfter: 1_000_000 }, { cutAfter: 10 }, { cutAfter: 10 }, { cutAfter: 10 }, 'whole']);
    expect((await fetchIt()).sentence).toBe(
      'The desktop runtime could not be downloaded: the connection was lost. The part that was downloaded (1 MB) is kept, and the next start continues from there.',
    );
    expect(arrived()).toBe(false);
    const before = line.asked.length;
    expect((await fetchIt()).sentence).toBe('');
    expect(line.asked).toHaveLength(before + 1);
    expect(goesOnAt(before)).toBeGreaterThan(500_000);
    expect(arrived()).toBe(true);
  });

  it('is deleted when its checksum differs, so that the next run does not resume from it', async () => {
    await serving(['whole']);
    expectChecksumOf(Buffer.from('another file'));
    expect((await fetchIt()).sentence).toBe(
      'The desktop runtime could not be downloaded: the file is not the runtime of this version (its checksum differs), so it was deleted.',
    );
    expect(existsSync(runtime())).toBe(false);
    expectChecksumOf(ZIP);
    expect((await fetchIt()).sentence).toBe('');
    expect(line.asked).toEqual(['', '']);
  });

  it('reports immediately where it cannot be downloaded, and how to set a proxy', async () => {
    await serving([{ status: 404 }]);
    expect((await fetchIt()).sentence).toMatch(
      /downloaded: 127\.0\.0\.1:\d+ answered 404 instead of the file\.$/,
    );
    expect((await fetchIt({ ELECTRON_MIRROR: 'https://nowhere.invalid/' })).sentence).toBe(
      'The desktop runtime could not be downloaded: nowhere.invalid cannot be reached (behind a proxy, put its address in HTTPS_PROXY).',
    );
  });
});

it('npm start reports why there is no runtime, and that the browser opens instead', async () => {
  await serving([{ status: 404 }]);
  // As a person with a display, who may use the desktop app.
  const said = await inProcess(
    `process.getuid = () => 1000;
    const { findRuntime } = await import(${module('runtime')});
    console.log((await findRuntime(${JSON.stringify(folder)}, process.execPath, console.log)).sentence);`,
    { DISPLAY: ':0' },
  );
  expect(said).toMatch(
    /^Downloading the desktop runtime, once .*\nThe desktop runtime could not be downloaded: \S+ answered 404 .*\. Opening in the browser instead\.\n$/,
  );
});

describe('behind a proxy', () => {
  const trusted = { NODE_EXTRA_CA_CERTS: fileURLToPath(CERTIFICATE) };
  const proxied = async (status?: number) => {
    const proxy = await openProxy(status);
    open.push(proxy);
    return proxy;
  };

  it('the runtime is downloaded through HTTPS_PROXY, interrupted or not', async () => {
    const { address, tunnels } = await proxied();
    await serving([{ cutAfter: 1_000_000 }, 'whole'], { secure: true });
    expect((await fetchIt({ ...trusted, HTTPS_PROXY: address })).sentence).toBe('');
    expect(new Set(tunnels)).toEqual(new Set([new URL(line.address).host]));
    expect(line.asked).toHaveLength(2);
    expect(goesOnAt(1)).toBeGreaterThan(500_000);
    expect(arrived()).toBe(true);
  });

  it('the runtime is downloaded directly from hosts in NO_PROXY', async () => {
    const { address, tunnels } = await proxied();
    await serving(['whole'], { secure: true });
    expect((await fetchIt({ ...trusted, HTTPS_PROXY: address, NO_PROXY: 'localhost' })).sentence).toBe('');
    expect(tunnels).toEqual([]);
  });

  it.each([
    [407, /the proxy asks for a name and a password: put them in HTTPS_PROXY/],
    [403, /the proxy answered 403\.$/],
  ])('a refusal with %i is reported', async (status, words) => {
    const { address } = await proxied(status);
    await serving(['whole'], { secure: true });
    expect((await fetchIt({ HTTPS_PROXY: address })).sentence).toMatch(words);
  });

  it('an untrusted certificate is reported with the remedy', async () => {
    await serving(['whole'], { secure: true });
    expect((await fetchIt()).sentence).toMatch(/certificate is not trusted here .*NODE_EXTRA_CA_CERTS\.$/);
    expect(line.asked).toEqual([]);
  });
});
