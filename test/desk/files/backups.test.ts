import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { CallInput, CallName, CallOutput } from '../../../src/bridge/contract.ts';
import { backupFolder, listBackups } from '../../../src/book/file/backup.ts';
import { demoBook } from '../../../src/demo/copy.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { guardedDesk } from '../guarded-desk.ts';

type Desk = Awaited<ReturnType<typeof guardedDesk>>;

async function shopWith(...hunters: string[]): Promise<Desk> {
  const shop = await guardedDesk();
  await shop.call('shop.setUp', { shopName: 'Test Locker', unit: 'lb' });
  for (const name of hunters) await shop.call('hunters.save', { name });
  return shop;
}

const newest = async (shop: Desk, place: string) => {
  const row = (await shop.call('shop.listBackups', {})).rows.find((one) => one.place === place);
  if (!row) throw new Error(`nothing ${place}`);
  return row;
};
const hunters = async (shop: Desk) =>
  (await shop.call('hunters.find', { text: 'hunter' })).map(({ name }) => name);

describe('restoring a backup of an earlier day', () => {
  /** A morning, a noon and an evening of the day before, each with one hunter more, and one entry of today. */
  async function dayAfter(second = ''): Promise<Desk> {
    const shop = await shopWith();
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: second } });
    for (const name of ['Hunter A', 'Hunter B', 'Hunter C']) {
      await shop.call('hunters.save', { name });
      await shop.call('shop.backUp', {});
      shop.wait(2 * 3600);
    }
    shop.wait(86_400);
    await shop.call('hunters.save', { name: 'Hunter D' });
    return shop;
  }

  it.each([
    ['beside', 0], ['beside', 1], ['beside', 2], ['away', 0], ['away', 1], ['away', 2],
  ] as const)('finds it (%s, %s) although the backup made on closing thins that day', async (place, which) => {
    const second = mkdtempSync(join(tmpdir(), 'gambrel-second-'));
    onTestFinished(() => rmSync(second, { recursive: true, force: true }));
    const shop = await dayAfter(second);
    const row = (await shop.call('shop.listBackups', {})).rows.filter((one) => one.place === place).toReversed()[which];
    await shop.call('shop.restore', { path: row?.path ?? '' });
    expect((await hunters(shop)).sort()).toEqual(['Hunter A', 'Hunter B', 'Hunter C'].slice(0, which + 1));
  }); // prettier-ignore
});

describe('automatic backups', () => {
  it('are made when the desk closes, if the book changed, and not again if it did not', async () => {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    expect(listBackups(shop.bookPath)).toHaveLength(1);
    const again = await guardedDesk(shop.bookPath, '2026-10-10T16:00:00Z');
    await again.call('rail.get', {});
    again.desk.close();
    expect(listBackups(shop.bookPath)).toHaveLength(1);
    expect(readdirSync(dirname(shop.bookPath)).sort()).toEqual(['shop backups', 'shop.gambrel']);
  });

  it('are made on a schedule while the book changes, and reported to the windows', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    try {
      const shop = await guardedDesk(tempBookPath(), undefined, { backUpEvery: 60_000, lookEvery: 2_000 });
      await shop.call('shop.setUp', { shopName: 'Test Locker', unit: 'lb' });
      await vi.advanceTimersByTimeAsync(60_000);
      expect(listBackups(shop.bookPath)).toHaveLength(1);
      expect(shop.heard).toEqual(['shop.setUp', 'shop.backUp']);
      shop.wait(3600);
      await vi.advanceTimersByTimeAsync(180_000);
      expect(listBackups(shop.bookPath)).toHaveLength(1);
      await shop.call('hunters.save', { name: 'Hunter A' });
      await vi.advanceTimersByTimeAsync(60_000);
      expect(listBackups(shop.bookPath)).toHaveLength(2);
    } finally {
      vi.useRealTimers();
    }
  });

  it('are made at the next close when the last run was interrupted', async () => {
    const shop = await shopWith();
    await shop.call('intake.takeIn', {
      hunter: { name: 'Hunter A' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
      weights: [{ stage: 'hanging', typed: '400' }],
    }); // prettier-ignore
    const copy = join(dirname(tempBookPath()), 'shop.gambrel');
    for (const end of ['', '-wal']) writeFileSync(copy + end, readFileSync(shop.bookPath + end));
    const again = await guardedDesk(copy);
    again.desk.close();
    expect(listBackups(copy)).toHaveLength(1);
  });
});

describe.runIf(process.platform !== 'win32')('other accounts of the computer', () => {
  it('read nothing, and where a place does not support private files the Shop reports it', async () => {
    const shop = await shopWith('Hunter A');
    const stick = join(dirname(shop.bookPath), 'stick');
    mkdirSync(stick);
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
    const { second } = await shop.call('shop.backUp', {});
    const read = async () => (await shop.call('shop.listBackups', {})).othersRead;
    chmodSync(dirname(shop.bookPath), 0o755);
    expect(await read()).toEqual({ here: false, away: false });
    // As on a stick or a share whose files have the modes that the system gives them all.
    chmodSync(shop.bookPath, 0o755);
    chmodSync(second!, 0o755);
    expect(await read()).toEqual({ here: true, away: true });
    // A locked copy gives nothing away.
    await shop.call('shop.setLock', { passphrase: 'three cold hooks' });
    chmodSync(shop.bookPath, 0o755);
    rmSync(second!);
    shop.wait(60);
    chmodSync((await shop.call('shop.backUp', {})).second!, 0o755);
    expect(await read()).toEqual({ here: true, away: false });
    // In a folder that lets nobody in, such as somebody's home, the modes of the files do not matter.
    chmodSync(dirname(shop.bookPath), 0o700);
    expect(await read()).toEqual({ here: false, away: false });
  });
});

describe('the second place', () => {
  it('gets a copy of each backup, and a missing stick is reported without losing the first one', async () => {
    const shop = await shopWith('Hunter A');
    const stick = join(dirname(shop.bookPath), 'stick');
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
    const missing = await shop.call('shop.backUp', {});
    expect(missing).toMatchObject({
      second: null,
      secondProblem: { code: 'second.missing', with: { path: stick } },
    });
    expect(existsSync(missing.path)).toBe(true);
    expect(await shop.call('shop.listBackups', {})).toMatchObject({
      second: { folder: stick, there: false }, secondProblem: { code: 'second.missing' },
    }); // prettier-ignore
    mkdirSync(stick);
    shop.wait(60);
    const made = await shop.call('shop.backUp', {});
    expect(made).toMatchObject({ second: join(stick, readdirSync(stick)[0] ?? ''), secondProblem: null });
    expect((await shop.call('shop.listBackups', {})).secondProblem).toBeNull();
  });

  it('gets encrypted copies once there is a passphrase, which this desk opens by itself and others only with it', async () => {
    const shop = await shopWith('Hunter A');
    const stick = join(dirname(shop.bookPath), 'stick');
    mkdirSync(stick);
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
    expect(await shop.problem('shop.setLock', { passphrase: 'short' })).toMatchObject({
      code: 'passphrase.short',
    });
    await shop.call('shop.setLock', { passphrase: 'three cold hooks' });
    expect(JSON.stringify(await shop.call('shop.get', {}))).not.toMatch(/"salt"|"key":"[0-9a-f]/);
    await shop.call('shop.backUp', {});
    expect(readdirSync(stick)).toEqual([expect.stringMatching(/\.gambrel-locked$/)]);
    const { path } = await newest(shop, 'away');
    expect((await shop.call('shop.tryBackup', { path })).animals).toBe(0);

    const elsewhere = await guardedDesk();
    const asked = { path, folder: stick };
    expect(await elsewhere.problem('shop.restore', asked)).toMatchObject({
      code: 'passphrase.needed',
      field: 'passphrase',
    });
    expect(await elsewhere.problem('shop.restore', { ...asked, passphrase: 'three warm hooks' })).toMatchObject({
      code: 'backup.passphrase', field: 'passphrase',
    }); // prettier-ignore
    await elsewhere.call('shop.restore', { ...asked, passphrase: 'three cold hooks' });
    expect(await hunters(elsewhere)).toEqual(['Hunter A']);
  });

  it('keeps its folder and its lock when the book is restored to a day before they were set', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    const stick = join(dirname(shop.bookPath), 'stick');
    mkdirSync(stick);
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
    await shop.call('shop.setLock', { passphrase: 'three cold hooks' });
    await shop.call('shop.restore', { path });
    expect(await shop.call('shop.listBackups', {})).toMatchObject({
      locked: true,
      second: { folder: stick },
    });
    shop.wait(60);
    await shop.call('shop.backUp', {});
    expect(readdirSync(stick).every((name) => name.endsWith('-locked'))).toBe(true);
  });
});

describe('a folder with backups of two shops', () => {
  it('shows the owner of each, in the list and before it is opened', async () => {
    const ours = await shopWith('Hunter A');
    const theirs = await guardedDesk();
    await theirs.call('shop.setUp', { shopName: 'Maple Locker', unit: 'kg' });
    const stick = join(dirname(ours.bookPath), 'stick');
    mkdirSync(stick);
    for (const shop of [ours, theirs]) {
      await shop.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
      await shop.call('shop.backUp', {});
    }
    const rows = (await ours.call('shop.listBackups', {})).rows.filter(({ place }) => place === 'away');
    expect(rows.map(({ own, shop }) => [own, shop]).sort()).toEqual([[false, 'Maple Locker'], [true, '']]); // prettier-ignore
    const path = rows.find(({ own }) => !own)?.path ?? '';
    expect(await ours.call('shop.tryBackup', { path })).toMatchObject({ own: false, shop: 'Maple Locker' });
    // Taking it all the same makes it ours, and the way back is the book set aside.
    await ours.call('shop.restore', { path });
    const after = (await ours.call('shop.listBackups', {})).rows.filter(({ place }) => place === 'away');
    expect(after.find((row) => row.path === path)).toMatchObject({ own: true });
    expect(after.find((row) => row.path !== path)).toMatchObject({ own: false, shop: 'Test Locker' });
  });

  it('offers a book that does not open its own backups first', async () => {
    const ours = await shopWith('Hunter A');
    const theirs = await guardedDesk();
    await theirs.call('shop.setUp', { shopName: 'Maple Locker', unit: 'kg' });
    const { path } = await theirs.call('shop.backUp', {});
    ours.desk.close();
    const beside = backupFolder(ours.bookPath);
    writeFileSync(join(beside, path.slice(path.lastIndexOf('/') + 1)), readFileSync(path));
    rmSync(ours.bookPath);
    const again = await guardedDesk(ours.bookPath, '2026-10-11T15:00:00Z');
    const { rows, trouble } = await again.call('shop.listBackups', {});
    expect(trouble?.code).toBe('book.missing');
    expect(new Set(rows.map(({ own }) => own))).toEqual(new Set([true, false]));
  });

  it.each(['', '/'])(
    "is refused as second place where it is the folder of the book's own backups%s",
    async (slash) => {
      const shop = await shopWith('Hunter A');
      const folder = backupFolder(shop.bookPath) + slash;
      const changes = { secondBackupFolder: folder };
      expect(await shop.problem('shop.saveSettings', { changes })).toEqual({
      kind: 'invalid', code: 'second.own-folder', field: 'changes.secondBackupFolder', with: { path: folder },
    }); // prettier-ignore
      expect((await shop.call('shop.get', {})).settings.secondBackupFolder).toBe('');
    },
  );
});

describe('restoring', () => {
  it('replaces the book while the desk runs, notifies the windows, and can be undone', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    await shop.call('hunters.save', { name: 'Hunter B' });
    shop.wait(60);
    const { setAside } = await shop.call('shop.restore', { path });
    expect(await hunters(shop)).toEqual(['Hunter A']);
    expect(shop.heard.at(-1)).toBe('shop.restore');
    await shop.call('shop.restore', { path: setAside ?? '' });
    expect(await hunters(shop)).toEqual(['Hunter A', 'Hunter B']);
    await shop.call('hunters.save', { name: 'Hunter C' });
    expect(shop.broken).toEqual([]);
  });

  it("inspects a backup of the demo, in the demo's calendar", async () => {
    const kept = tempBookPath();
    await demoAt(kept);
    // A program that shows the demo need not have a book, nor a folder for one.
    const bookPath = join(dirname(tempBookPath()), 'none yet', 'shop.gambrel');
    const desk = await openDesk({ bookPath, demo: true, demoBook: demoBook(kept) });
    onTestFinished(() => desk.close());
    const call = async <N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> => {
      const answer = await desk.call(name, input);
      if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
      return answer.value as CallOutput<N>;
    };
    const made = await call('shop.backUp', {});
    const look = await call('shop.listBackups', { folder: '' });
    expect(Math.abs(Date.parse(look.at) - Date.parse(made.at))).toBeLessThan(60_000);
    const held = await call('shop.tryBackup', { path: made.path, folder: '', passphrase: '' });
    expect(held.animals).toBeGreaterThan(200);
  }, 60_000);

  it('opens no other file of the computer', async () => {
    const shop = await shopWith('Hunter A');
    expect(await shop.problem('shop.restore', { path: shop.bookPath })).toMatchObject({
      code: 'backup.gone',
    });
    expect(await shop.problem('shop.tryBackup', { path: '/etc/passwd', folder: '/etc' })).toMatchObject({
      code: 'backup.gone',
    });
    expect(await shop.call('shop.listBackups', { folder: shop.bookPath })).toMatchObject({
      rows: [],
      unreadable: [{ code: 'second.unreadable' }],
    });
  });

  it('changes nothing when the backup is damaged or the book is open elsewhere', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    await shop.call('hunters.save', { name: 'Hunter B' });
    const other = await guardedDesk(shop.bookPath);
    expect(await shop.problem('shop.restore', { path })).toMatchObject({ code: 'book.locked' });
    other.desk.close();
    writeFileSync(path, readFileSync(path).subarray(0, 9000));
    expect(await shop.problem('shop.restore', { path })).toMatchObject({ code: 'backup.bad' });
    expect(await hunters(shop)).toEqual(['Hunter A', 'Hunter B']);
    await shop.call('hunters.save', { name: 'Hunter C' });
  });
});

describe('a book that does not open', () => {
  async function spoilt(spoil: (bytes: Buffer) => Buffer | null): Promise<Desk> {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    const bytes = spoil(readFileSync(shop.bookPath));
    if (bytes) writeFileSync(shop.bookPath, bytes);
    else rmSync(shop.bookPath);
    return guardedDesk(shop.bookPath, '2026-10-11T15:00:00Z');
  }
  const flip = (bytes: Buffer) => {
    const at = bytes.indexOf('Hunter A');
    bytes[at] = (bytes[at] ?? 0) ^ 1;
    return bytes;
  };

  it.each([
    ['book.damaged', (bytes: Buffer) => bytes.fill(0xa5, 8192, 60_000)],
    ['book.damaged', (bytes: Buffer) => bytes.subarray(0, bytes.length / 2)],
    ['book.damaged', () => Buffer.alloc(0)],
    ['book.foreign', (bytes: Buffer) => bytes.fill(0, 0, 4096)],
    ['book.missing', () => null],
    ['book.changed', flip],
  ] as const)('says %s to every call, and goes back to its backup', async (code, spoil) => {
    const shop = await spoilt(spoil);
    for (const call of ['shop.get', 'rail.get', 'hunters.find'] as const)
      expect(await shop.problem(call, { text: '' })).toMatchObject({ kind: 'broken', code });
    const look = await shop.call('shop.listBackups', {});
    expect(look.trouble).toMatchObject({ code, with: { path: shop.bookPath } });
    await shop.call('shop.restore', { path: look.rows[0]?.path ?? '' });
    expect(await hunters(shop)).toEqual(['Hunter A']);
    expect(shop.desk.trouble()).toBeNull();
  });

  it('after a change outside is not opened by an invalid backup', async () => {
    const shop = await spoilt(flip);
    const { path } = await newest(shop, 'beside');
    writeFileSync(path, readFileSync(path).subarray(0, 9000));
    expect(await shop.problem('shop.restore', { path })).toMatchObject({ code: 'backup.bad' });
    expect(await shop.problem('rail.get', {})).toMatchObject({ code: 'book.changed' });
  });

  it('after a change outside can be opened as it is', async () => {
    const shop = await spoilt(flip);
    expect(await shop.call('shop.tryAgain', {})).toEqual({ open: false });
    expect(await shop.call('shop.tryAgain', { asItIs: true })).toEqual({ open: true });
    expect(await shop.call('hunters.find', { text: 'unter' })).toHaveLength(1);
  });

  it('is replaced by an empty one only where it cannot be recovered, and is kept beside it', async () => {
    const shop = await spoilt((bytes) => bytes.subarray(0, 9000));
    rmSync(backupFolder(shop.bookPath), { recursive: true });
    expect(await shop.call('shop.beginAnew', {})).toEqual({ open: true });
    expect((await shop.call('shop.get', {})).setUp).toBe(false);
    expect((await newest(shop, 'set aside')).bytes).toBe(9000);
  });

  it('is opened by a retry once another program closed it', async () => {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    const other = new Database(shop.bookPath);
    other.pragma('locking_mode = EXCLUSIVE');
    other.exec('BEGIN EXCLUSIVE; COMMIT');
    const again = await guardedDesk(shop.bookPath);
    expect(await again.problem('rail.get', {})).toMatchObject({ code: 'book.locked' });
    expect(await again.problem('shop.beginAnew', {})).toMatchObject({ code: 'book.locked' });
    other.close();
    expect(await again.call('shop.tryAgain', {})).toEqual({ open: true });
  });
});

describe('a file that disappears while it is open', () => {
  it('is detected before a write, and everything saved is in a backup', async () => {
    const shop = await shopWith('Hunter A');
    rmSync(shop.bookPath);
    expect(await shop.problem('hunters.save', { name: 'Hunter B' })).toMatchObject({ code: 'book.missing' });
    expect(await shop.problem('rail.get', {})).toMatchObject({ code: 'book.missing' });
    await shop.call('shop.restore', { path: (await newest(shop, 'beside')).path });
    expect(await hunters(shop)).toEqual(['Hunter A']);
  });

  it('is detected when a copy program replaced it', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    await shop.call('hunters.save', { name: 'Hunter B' });
    shop.wait(60);
    const old = readFileSync(path);
    rmSync(shop.bookPath);
    writeFileSync(`${shop.bookPath}.keep`, ''); // takes the freed place on the disk, so that the new file is told apart
    writeFileSync(shop.bookPath, old);
    expect(await shop.problem('hunters.save', { name: 'Hunter C' })).toMatchObject({ code: 'book.changed' });
    await shop.call('shop.restore', { path: (await newest(shop, 'beside')).path });
    expect(await hunters(shop)).toEqual(['Hunter A', 'Hunter B']);
  });
});

describe('two programs on one book', () => {
  it("see each other's writes, with caches updated, and notify their windows", async () => {
    const first = await shopWith('Hunter A');
    const second = await guardedDesk(first.bookPath);
    expect((await second.call('shop.get', {})).settings.hangingLimitDays).toBe(7);
    await first.call('shop.saveSettings', { changes: { hangingLimitDays: 9 } });
    await first.call('hunters.save', { name: 'Hunter B' });
    expect((await second.call('shop.get', {})).settings.hangingLimitDays).toBe(9);
    expect(second.heard).toEqual([null]);
    expect(await hunters(second)).toEqual(['Hunter A', 'Hunter B']);
  });

  it('are notified without a call', async () => {
    const first = await shopWith('Hunter A');
    const second = await guardedDesk(first.bookPath, undefined, { backUpEvery: 1e9, lookEvery: 20 });
    await first.call('hunters.save', { name: 'Hunter B' });
    await expect.poll(() => second.heard).toEqual([null]);
  });

  it('assign no ticket twice', async () => {
    const first = await shopWith();
    const second = await guardedDesk(first.bookPath);
    const animal = { species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' } as const;
    const tickets: string[] = [];
    for (let n = 0; n < 6; n++)
      tickets.push(
        (await [first, second][n % 2]!.call('intake.takeIn', { hunter: { name: `Hunter ${n}` }, ...animal }))
          .ticket,
      );
    expect(tickets).toEqual([1, 2, 3, 4, 5, 6].map((n) => `26-000${n}`));
  });
});

describe('a clock that was set back', () => {
  it('is reported, does not change the order, and assigns no ticket twice', async () => {
    const shop = await shopWith();
    const take = (name: string) =>
      shop.call('intake.takeIn', {
        hunter: { name }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
        weights: [{ stage: 'hanging', typed: '400' }],
      }); // prettier-ignore
    const first = await take('Hunter A');
    expect((await shop.call('shop.get', {})).clockBehind).toBeNull();
    shop.wait(-1800);
    expect((await shop.call('shop.get', {})).clockBehind).toBeNull();
    shop.wait(-3 * 86_400);
    expect((await shop.call('shop.get', {})).clockBehind).toBe('2026-10-10T15:00:00.000Z');
    const second = await take('Hunter B');
    expect([first.ticket, second.ticket]).toEqual(['26-0001', '26-0002']);
    await shop.call('table.weigh', { animalId: first.id, stage: 'cut', part: 'trim', typed: '100' });
    await shop.call('table.weigh', { animalId: first.id, stage: 'cut', part: 'bone', typed: '90' });
    const page = await shop.call('animals.get', { id: first.id });
    expect(page.weighings.map(({ typed }) => typed)).toEqual(['400', '100', '90']);
    // The backup made now carries the earlier date, and is not thinned away for it.
    const { path } = await shop.call('shop.backUp', {});
    expect(existsSync(path)).toBe(true);
    shop.wait(3 * 86_400 + 3600);
    expect((await shop.call('shop.get', {})).clockBehind).toBeNull();
  });
});
