/** One computer alone: a program whose shop never switched stations on listens once, and loads nothing that makes or serves their line. */
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, expect, it, vi } from 'vitest';
import { tempBookPath } from '../../book/temp-book.ts';
import { deskLine } from '../../e2e/desk-line.ts';
import { serve } from '../../e2e/served.ts';
import { freePort } from './open-line.ts';
import { listeningAt } from './sockets-of.ts';

const BUILT = fileURLToPath(new URL('../../../out/main', import.meta.url));
const ADDRESS = '127.0.0.1';
/** What stands in the code of each part, and in no other of the program. */
const MARKS = {
  'the package of certificates': 'X509CertificateGenerator',
  'what that package expects': 'defineMetadata',
  'the line over TLS': 'TLSv1.3',
} as const;

afterEach(() => vi.unstubAllEnvs());

/** The parts that stand in these files. */
function partsIn(files: readonly string[]): string[] {
  const code = files.map((file) => readFileSync(file, 'utf8'));
  return Object.entries(MARKS).flatMap(([part, mark]) =>
    code.some((text) => text.includes(mark)) ? [part] : [],
  );
}

/** Runs the program on a new book and ends it. @returns where it listened, and the files of its own that it loaded */
async function run(stations: { port: number } | null) {
  // Node then writes at the end which scripts ran, those of worker threads too.
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-loaded-'));
  vi.stubEnv('NODE_V8_COVERAGE', folder);
  const program = await serve('--book', tempBookPath());
  vi.unstubAllEnvs();
  const address = await program.newAddress();
  const call = await deskLine(address);
  await call('shop.setUp', { shopName: 'Oak Ridge', unit: 'lb' });
  if (stations)
    await call('stations.setUp', { on: true, address: ADDRESS, port: stations.port, pins: false, by: 'MK' });
  await expect.poll(async () => (await call('stations.get', {})).line.state).toBe(stations ? 'open' : 'off');
  const listened = process.platform === 'linux' ? listeningAt(program.process.pid ?? 0) : null;
  await program.end('SIGINT');
  const loaded = readdirSync(folder).flatMap((name) => {
    const { result } = JSON.parse(readFileSync(join(folder, name), 'utf8')) as { result: { url: string }[] };
    return result.map(({ url }) => url).filter((url) => url.startsWith('file:'));
  });
  const files = [...new Set(loaded)]
    .map((url) => fileURLToPath(url))
    .filter((file) => file.startsWith(BUILT));
  return { own: new URL(address).host, listened, files };
}

it('has code to load for stations', () => {
  const all = readdirSync(BUILT, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.js'),
  );
  expect(partsIn(all.map((name) => join(BUILT, name)))).toEqual(Object.keys(MARKS));
});

it('loads none of it and listens for its own window alone, until stations are switched on', async () => {
  const { own, listened, files } = await run(null);
  expect(files).toContain(join(BUILT, 'serve.js'));
  expect(partsIn(files)).toEqual([]);
  if (listened) expect(listened).toEqual([own]);
}, 60_000);

it('loads it and listens for stations once they are switched on', async () => {
  const port = await freePort();
  const { own, listened, files } = await run({ port });
  expect(partsIn(files)).toEqual(Object.keys(MARKS));
  if (listened) expect(listened).toEqual([own, `${ADDRESS}:${port}`].toSorted());
}, 60_000);
