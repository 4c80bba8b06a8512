/**
 * Downloads over connections that stall, break and refuse, from a local server. TLS and `HTTPS_PROXY`:
 * `fetch-runtime.test.ts`.
 */
import { mkdtempSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { download } from '../../electron/start/download.mjs';
import { openProxy, serveBadly, type BadLine, type Proxy, type Turn } from './bad-line.ts';

const CONTENT = Buffer.from(Array.from({ length: 400_000 }, (_, at) => (at * 7 + (at >> 8)) % 256));
/** Undici checks its timeouts about once a second, so a shorter limit is not more precise. */
const QUICK = { stall: 1_000, pauses: [1, 1] };

let folder: string;
let line: BadLine;
const open: (BadLine | Proxy)[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gambrel-download-'));
  for (const name of ['http_proxy', 'HTTP_PROXY', 'https_proxy', 'HTTPS_PROXY', 'no_proxy', 'NO_PROXY'])
    vi.stubEnv(name, undefined);
});
afterEach(async () => {
  vi.unstubAllEnvs();
  await Promise.all(open.splice(0).map((one) => one.close()));
  rmSync(folder, { recursive: true, force: true });
});

async function serving(turns: readonly Turn[], how?: { ranges: boolean }): Promise<void> {
  open.push((line = await serveBadly(CONTENT, turns, how)));
}
async function proxy(status?: number): Promise<Proxy> {
  const opened = await openProxy(status);
  open.push(opened);
  return opened;
}
/** The range of a request. A cut may lose buffered data, so the file may be shorter than what was sent. */
const startOf = (range: string) => Number(/^bytes=(\d+)-$/.exec(range)?.[1] ?? 0);
const partial = () => join(folder, 'file.part');
const target = () => join(folder, 'file');
const fetchIt = (
  how: { onRetry?: (error: Error) => void; onProgress?: (came: number, whole: number) => void } = {},
) => download(`${line.address}/file`, target(), { partial: partial(), ...QUICK, ...how });
const complete = () =>
  existsSync(target()) && readFileSync(target()).equals(CONTENT) && !existsSync(partial());

describe('a transfer that is cut', () => {
  it('resumes where it stopped, as often as necessary while each attempt makes progress', async () => {
    await serving([
      { cutAfter: 100_000 },
      { cutAfter: 100_000 },
      { cutAfter: 100_000 },
      { cutAfter: 80_000 },
      'whole',
    ]);
    await fetchIt();
    expect(complete()).toBe(true);
    expect(line.asked).toHaveLength(5);
    const from = line.asked.map(startOf);
    expect(from).toEqual(from.toSorted((a, b) => a - b));
    expect(from[0]).toBe(0);
    expect(Math.min(...from.slice(1))).toBeGreaterThan(0);
  });

  it('gives up after a few attempts with little progress, and keeps the data for the next run', async () => {
    await serving([{ cutAfter: 1_000 }, { cutAfter: 10 }, { cutAfter: 10 }, 'whole']);
    await expect(fetchIt()).rejects.toThrow();
    expect(line.asked).toHaveLength(3);
    const kept = readFileSync(partial());
    expect(kept.length).toBeGreaterThan(0);
    expect(kept.equals(CONTENT.subarray(0, kept.length))).toBe(true);
    await fetchIt();
    expect(startOf(line.asked.at(-1) ?? '')).toBe(kept.length);
    expect(complete()).toBe(true);
  });

  it('restarts with a server without range requests', async () => {
    await serving([{ cutAfter: 100_000 }, 'whole'], { ranges: false });
    await fetchIt();
    expect(complete()).toBe(true);
  });

  it('is complete when only the last acknowledgment was missing', async () => {
    await serving(['whole']);
    writeFileSync(partial(), CONTENT);
    await fetchIt();
    expect(complete()).toBe(true);
  });

  it('restarts when the partial file is longer than the file', async () => {
    await serving(['whole']);
    writeFileSync(partial(), Buffer.alloc(500_000));
    await fetchIt();
    expect(line.asked).toEqual(['bytes=500000-', '']);
    expect(complete()).toBe(true);
  });
});

describe('a transfer that stalls', () => {
  it('is aborted by us and resumed', async () => {
    await serving([{ stallAfter: 200_000 }, 'whole']);
    const why: Error[] = [];
    await fetchIt({ onRetry: (error) => why.push(error) });
    expect(why).toHaveLength(1);
    expect(line.asked).toHaveLength(2);
    expect(startOf(line.asked[1] ?? '')).toBeGreaterThan(0);
    expect(complete()).toBe(true);
  });

  it('has no total limit: a slow but active one completes', async () => {
    await serving([{ cutAfter: 90_000 }]); // Each connection delivers a little, and breaks.
    await fetchIt();
    expect(line.asked.length).toBeGreaterThan(QUICK.pauses.length + 1);
    expect(complete()).toBe(true);
  });
});

describe('an answer that is not the file', () => {
  it.each([404, 403, 410])('%i fails immediately', async (status) => {
    await serving([{ status }, 'whole']);
    await expect(fetchIt()).rejects.toMatchObject({ name: 'Refused', status });
    expect(line.asked).toHaveLength(1);
  });

  it.each([503, 429, 500])('%i is retried', async (status) => {
    await serving([{ status }, 'whole']);
    await fetchIt();
    expect(complete()).toBe(true);
  });
});

it('reports progress, including data from before', async () => {
  await serving(['whole']);
  writeFileSync(partial(), CONTENT.subarray(0, 150_000));
  const told: [number, number][] = [];
  await fetchIt({ onProgress: (...how) => told.push(how) });
  expect(told[0]).toEqual([150_000, 400_000]);
  expect(told.at(-1)).toEqual([400_000, 400_000]);
  expect(told).toEqual(told.toSorted(([a], [b]) => a - b));
});

describe('a proxy', () => {
  it.each(['HTTP_PROXY', 'http_proxy'])('is used when %s names it, for missing files too', async (name) => {
    const { address, tunnels } = await proxy();
    await serving([{ cutAfter: 100_000 }, 'whole']);
    vi.stubEnv(name, address);
    await fetchIt();
    expect(new Set(tunnels)).toEqual(new Set([new URL(line.address).host]));
    expect(complete()).toBe(true);
  });

  it('is not used for hosts in NO_PROXY', async () => {
    const { address, tunnels } = await proxy();
    await serving(['whole']);
    vi.stubEnv('HTTP_PROXY', address);
    vi.stubEnv('NO_PROXY', '127.0.0.1');
    await fetchIt();
    expect(tunnels).toEqual([]);
    expect(complete()).toBe(true);
  });

  it('fails immediately if it refuses', async () => {
    const { address, tunnels } = await proxy(407);
    await serving(['whole']);
    vi.stubEnv('HTTP_PROXY', address);
    await expect(fetchIt()).rejects.toThrow();
    expect(tunnels).toHaveLength(1);
  });
});
