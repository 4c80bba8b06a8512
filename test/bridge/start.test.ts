/** Starts the built `serve.js` under plain Node as its own process, on valid and invalid books. */
import { spawn, type ChildProcess } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { OPENING_HEADER } from '../../src/bridge/wire.ts';

const root = resolve(import.meta.dirname, '../..');
const SERVE = join(root, 'out/main/serve.js');

let folder: string;
const started: ChildProcess[] = [];
beforeEach(() => {
  if (!existsSync(SERVE)) throw new Error('The program is not built: run "npm run build" first.');
  folder = mkdtempSync(join(tmpdir(), 'gambrel-start-'));
});
afterEach(() => {
  for (const child of started.splice(0)) child.kill('SIGKILL');
  chmodSync(folder, 0o700);
  rmSync(folder, { recursive: true, force: true });
});

interface Run {
  child: ChildProcess;
  out: () => string;
  err: () => string;
  ended: Promise<{ code: number | null; out: string; err: string }>;
}

function run(args: string[], env: Record<string, string | undefined> = {}, file = SERVE): Run {
  const child = spawn(process.execPath, [file, ...args], {
    env: { ...process.env, GAMBREL_NO_OPEN: '1', ...env },
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  started.push(child);
  let out = '';
  let err = '';
  child.stdout?.on('data', (text: Buffer) => (out += text.toString()));
  child.stderr?.on('data', (text: Buffer) => (err += text.toString()));
  const ended = new Promise<{ code: number | null; out: string; err: string }>((done) =>
    child.on('close', (code) => done({ code, out, err })),
  );
  return { child, out: () => out, err: () => err, ended };
}

/** The printed address, once it is available. */
async function addressOf({ out }: Run): Promise<URL> {
  await expect.poll(out, { timeout: 60_000 }).toMatch(/Gambrel is open at \S+/);
  return new URL(/Gambrel is open at (\S+)/.exec(out())?.[1] ?? '');
}

/** Sessions by the address that gave them; each gives only one. */
const sessions = new Map<string, string>();

/** Calls as a window does. */
async function callAt(address: URL, name: string, input: unknown): Promise<unknown> {
  let opening = '';
  const post = async (path: string, body: unknown, bearer = '') => {
    const response = await fetch(new URL(path, address.origin), {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        authorization: `Bearer ${bearer}`,
        [OPENING_HEADER]: opening,
      },
      body: JSON.stringify(body),
    });
    return (await response.json()) as Record<string, unknown>;
  };
  const bearer =
    sessions.get(address.href) ??
    String((await post('/session', { code: address.hash.slice('#code='.length) }))['bearer']);
  sessions.set(address.href, bearer);
  const look = await post('/call/shop.get', {}, bearer);
  opening = (look.value as { opening?: string } | undefined)?.opening ?? '';
  return post(`/call/${name}`, input, bearer);
}

const shop = () => join(folder, 'shop.gambrel');
/** An empty book. */
const newShop = () => {
  writeFileSync(shop(), '');
  return shop();
};

describe('a successful start', () => {
  it('serves the window and the book, and Ctrl-C leaves one file', async () => {
    const running = run(['--book', newShop(), '--port', '0']);
    const address = await addressOf(running);
    expect(address.hostname).toBe('127.0.0.1');
    const page = await fetch(address);
    expect(await page.text()).toContain('<script type="module"');
    expect(await callAt(address, 'shop.setUp', { shopName: 'Ridge', unit: 'lb' })).toMatchObject({
      ok: true,
    });
    running.child.kill('SIGINT');
    expect(await running.ended).toMatchObject({ code: 0, err: '' });
    expect(readdirSync(folder)).toEqual(['shop backups', 'shop.gambrel']);
    const again = run(['--book', shop(), '--port', '0']);
    expect(await callAt(await addressOf(again), 'shop.get', {})).toMatchObject({
      ok: true,
      value: { setUp: true },
    });
    again.child.kill('SIGTERM');
    expect((await again.ended).code).toBe(0);
    expect(readdirSync(folder)).toEqual(['shop backups', 'shop.gambrel']);
    // The second run only read, so it left the one backup of the first.
    expect(readdirSync(join(folder, 'shop backups')).filter((name) => /\.gambrel$/.test(name))).toHaveLength(
      1,
    );
  });

  it('prints another address whenever Enter is pressed, for a second window or a lost one', async () => {
    const running = run(['--book', newShop(), '--port', '0']);
    const first = await addressOf(running);
    expect(running.out()).toContain('Press Enter here for another window');
    running.child.stdin?.write('\n');
    await expect.poll(() => running.out().match(/open at \S+/g)?.length).toBe(2);
    const second = new URL(/[^]*open at (\S+)/.exec(running.out())?.[1] ?? '');
    expect(second.origin).toBe(first.origin);
    for (const address of [second, first])
      expect(await callAt(address, 'shop.get', {})).toMatchObject({ ok: true });
    running.child.kill('SIGINT');
    expect(await running.ended).toMatchObject({ code: 0, err: '' });
  });

  it.runIf(process.platform !== 'win32')('restricts its files to its account, under any mask', async () => {
    const data = join(folder, 'data');
    const ours = join(data, 'Gambrel');
    mkdirSync(ours, { recursive: true, mode: 0o755 }); // As earlier versions created it.
    const mask = process.umask(0);
    const running = run(['--port', '0'], { XDG_DATA_HOME: data, GAMBREL_BOOK: '' });
    process.umask(mask);
    const address = await addressOf(running);
    await callAt(address, 'shop.setUp', { shopName: 'Ridge', unit: 'lb' });
    await callAt(address, 'shop.backUp', {});
    const modes = (top: string) =>
      readdirSync(top, { recursive: true, encoding: 'utf8' }).map((name) =>
        (statSync(join(top, name)).mode & 0o777).toString(8),
      );
    // The book with two logs, one backup and its folder.
    expect(modes(ours).toSorted()).toEqual(['600', '600', '600', '600', '700']);
    expect((statSync(ours).mode & 0o777).toString(8)).toBe('700');
    expect((statSync(data).mode & 0o777).toString(8)).toBe('755');
    running.child.kill('SIGINT');
    await running.ended;
    expect(modes(ours).toSorted()).toEqual(['600', '600', '600', '700']); // The logs are removed, the seal is added.
  });

  it('shows the demo without creating a book', async () => {
    const running = run(['--demo', '--port', '0', '--book', shop()]);
    expect(await callAt(await addressOf(running), 'shop.get', {})).toMatchObject({
      ok: true,
      value: { demo: true },
    });
    running.child.kill('SIGINT');
    expect(await running.ended).toMatchObject({ code: 0, err: '' });
    expect(readdirSync(folder)).toEqual([]);
  }, 90_000); // The demo's seasons are entered one by one.

  it('opens the book of GAMBREL_BOOK or of the default path, creating folders if necessary', async () => {
    for (const env of [
      { GAMBREL_BOOK: join(folder, 'a', 'b.gambrel') },
      { XDG_DATA_HOME: folder, GAMBREL_BOOK: '' },
    ]) {
      const running = run(['--port', '0'], env);
      await addressOf(running);
      running.child.kill('SIGINT');
      await running.ended;
    }
    expect(existsSync(join(folder, 'a', 'b.gambrel'))).toBe(true);
    if (process.platform === 'linux') expect(existsSync(join(folder, 'Gambrel', 'shop.gambrel'))).toBe(true);
  });

  it('does not create a named book that is missing, nor its folder; the window asks first', async () => {
    const away = join(folder, 'stick', 'shop.gambrel');
    const running = run(['--book', away, '--port', '0']);
    const address = await addressOf(running);
    expect(await callAt(address, 'shop.get', {})).toMatchObject({ problem: { code: 'book.absent' } });
    expect(existsSync(join(folder, 'stick'))).toBe(false);
    expect(await callAt(address, 'shop.beginAnew', {})).toMatchObject({ value: { open: true } });
    expect(existsSync(away)).toBe(true);
  });

  it('reports another port when the preferred one is in use', async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const taken = (other.address() as { port: number }).port;
    const running = run(['--book', newShop(), '--port', String(taken)]);
    const address = await addressOf(running);
    expect(running.out()).toContain(`Port ${taken} is in use, so Gambrel uses ${address.port}.`);
    expect(Number(address.port)).not.toBe(taken);
    await new Promise((done) => other.close(done));
  });
});

describe('a book that does not open', () => {
  /**
   * The window opens anyway and shows the reason; the terminal shows one sentence without a stack; the file is
   * unchanged.
   */
  async function troubled(path: string, ...codes: string[]): Promise<URL> {
    const before = existsSync(shop()) ? readFileSync(shop()) : null;
    const running = run(['--port', '0'], { GAMBREL_BOOK: path });
    const address = await addressOf(running);
    for (const call of ['shop.get', 'rail.get']) {
      const { problem } = (await callAt(address, call, {})) as { problem: { code: string } };
      expect(codes).toContain(problem.code);
    }
    expect(running.err()).toMatch(/^The book [^\n]+ is not open: [^\n]+--book\.\n$/);
    if (before) expect(readFileSync(shop()).equals(before)).toBe(true);
    return address;
  }
  /** Restores the newest listed backup. */
  async function goBack(address: URL): Promise<void> {
    const { value } = (await callAt(address, 'shop.listBackups', {})) as {
      value: { rows: { path: string }[] };
    };
    expect(await callAt(address, 'shop.restore', { path: value.rows[0]?.path })).toMatchObject({ ok: true });
    expect(await callAt(address, 'shop.get', {})).toMatchObject({
      value: { setUp: true, settings: { shopName: 'Ridge' } },
    });
  }

  it('a file that is no book at all', async () => {
    writeFileSync(shop(), 'just some text that somebody saved under this name'.repeat(100));
    await troubled(shop(), 'book.foreign');
  });

  it("another program's SQLite file", async () => {
    const other = new Database(shop());
    other.exec('CREATE TABLE recipe (name TEXT)');
    other.close();
    await troubled(shop(), 'book.foreign');
  });

  it('a book of a newer Gambrel', async () => {
    await makeBook();
    const book = new Database(shop());
    book.pragma('user_version = 999');
    book.pragma('journal_mode = DELETE');
    book.close();
    await troubled(shop(), 'book.newer');
  });

  it('a damaged book whose newest good backup can be opened', async () => {
    await makeBook();
    const backups = join(folder, 'shop backups');
    const good = join(backups, 'shop 2026-10-01T08-00-00.gambrel');
    copyFileSync(shop(), good);
    writeFileSync(join(backups, 'shop 2026-10-02T08-00-00.gambrel'), readFileSync(shop()).subarray(0, 5000));
    const pages = readFileSync(shop());
    pages.fill(0xa5, 8192, 40_960);
    writeFileSync(shop(), pages);
    const address = await troubled(shop(), 'book.damaged');
    // The newest backup is truncated: it is refused, and the book is unchanged.
    const cut = { path: join(backups, 'shop 2026-10-02T08-00-00.gambrel') };
    expect(await callAt(address, 'shop.restore', cut)).toMatchObject({ problem: { code: 'backup.bad' } });
    expect(readFileSync(shop()).equals(pages)).toBe(true);
    expect(await callAt(address, 'shop.restore', { path: good })).toMatchObject({ ok: true });
    expect(await callAt(address, 'shop.get', {})).toMatchObject({ value: { setUp: true } });
  });

  it('a book with an overwritten first page, whose newest good backup can be opened', async () => {
    await makeBook();
    rmSync(join(folder, 'shop backups', 'last closed.sha256'));
    const pages = readFileSync(shop());
    pages.fill(0, 0, 4096);
    writeFileSync(shop(), pages);
    await goBack(await troubled(shop(), 'book.foreign'));
  });

  it('a place that cannot be a folder', async () => {
    writeFileSync(join(folder, 'file'), '');
    await troubled(join(folder, 'file', 'shop.gambrel'), 'book.folder');
  });

  it('a read-only folder', async () => {
    const locked = process.getuid?.() === 0 ? '/sys/gambrel' : folder; // Root can write to any other folder.
    chmodSync(folder, 0o500);
    await troubled(join(locked, 'shop.gambrel'), 'book.folder', 'book.read-only');
  });

  it('invalid options', async () => {
    for (const args of [['--bok', 'x'], ['--book']]) {
      const { code, out, err } = await run(args).ended;
      expect([code, out, err.includes('--book')]).toEqual([1, '', true]);
    }
    const { code, err } = await run(['--port', 'http']).ended;
    expect([code, err]).toEqual([1, '"http" is not a port. Give a whole number up to 65535.\n']);
  });

  async function makeBook(): Promise<void> {
    const running = run(['--book', newShop(), '--port', '0']);
    await callAt(await addressOf(running), 'shop.setUp', { shopName: 'Ridge', unit: 'lb' });
    running.child.kill('SIGINT');
    await running.ended;
  }
});
