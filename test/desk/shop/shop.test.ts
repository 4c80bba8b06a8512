import { readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDesk } from '../../../src/desk/desk.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

describe('the shop', () => {
  it('shows the first start for a new book and is set up by a name and a unit', async () => {
    const shop = await freshDesk('kg');
    const look = await shop.call('shop.get', {});
    expect(look).toMatchObject({
      setUp: true,
      demo: false,
      today: '2026-10-10',
      season: 2026,
      settings: { shopName: 'Test Locker', unit: 'kg' },
    });
    expect((await shop.call('prices.get', {})).example).toBe(true);
  });

  it('counts January as part of the season that began before', async () => {
    const shop = await freshDesk('lb', '2027-01-15T15:00:00Z');
    await takeIn(shop);
    expect((await shop.call('rail.get', {})).hooks[0]?.ticket).toBe('26-0001');
  });

  it("uses the shop's own date, not Greenwich's", async () => {
    const shop = await freshDesk('lb', '2026-10-11T03:00:00Z');
    expect((await shop.call('shop.get', {})).today).toBe('2026-10-10');
  });

  it('has all figures again after a restart', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const before = await shop.call('animals.get', { id });
    shop.desk.close();
    expect(readdirSync(dirname(shop.bookPath))).toEqual(['shop.gambrel']);
    const again = await openDesk({ bookPath: shop.bookPath, clock: () => new Date('2026-10-10T15:00:00Z') });
    expect(await again.call('animals.get', { id })).toEqual({ ok: true, value: before });
    again.close();
  });

  it('notifies every listener of a write, and none of a refusal or a query', async () => {
    const shop = await freshDesk();
    const heard: (string | null)[] = [];
    const stop = shop.desk.onChanged(({ call }) => heard.push(call));
    const id = await takeIn(shop);
    await shop.call('animals.get', { id });
    await shop.problem('table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed: '' });
    stop();
    await takeIn(shop, { hunter: { name: 'Another' } });
    expect(heard).toEqual(['intake.takeIn', 'table.weigh']);
  });

  it('backs up beside the book', async () => {
    const shop = await freshDesk();
    const { path } = await shop.call('shop.backUp', {});
    expect((await shop.call('shop.get', {})).lastBackup?.path).toBe(path);
  });

  it('keeps an audit of changes', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { hangingLimitDays: 9 }, by: 'RB' });
    const { openRecordBook } = await import('../../../src/book/book.ts');
    shop.desk.close();
    const book = openRecordBook(shop.bookPath, new Date());
    expect(book.audit.of('setting', 'hangingLimitDays')).toMatchObject([
      { act: 'change', before: '7', after: '9', by: 'RB' },
    ]);
    book.close();
  });
});

describe('hunters', () => {
  it('are found by part of a name, without accents, or of a phone number', async () => {
    const shop = await freshDesk();
    await shop.call('hunters.save', { name: 'Ødegård, Ingrid', phone: '(307) 555-0188' });
    await shop.call('hunters.save', { name: "O'Brien, Pat", phone: '307 555 0101' });
    const names = async (text: string) => (await shop.call('hunters.find', { text })).map(({ name }) => name);
    expect(await names('odeg')).toEqual(['Ødegård, Ingrid']);
    expect(await names('555-01')).toHaveLength(2);
    expect(await names('0188')).toEqual(['Ødegård, Ingrid']);
    expect(await names("o'b")).toEqual(["O'Brien, Pat"]);
    expect(await names('%')).toEqual([]);
  });
});

describe('holds and pick-up', () => {
  it('keeps a held animal in the shop until it is cleared, and a positive one forever', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
    const [clear, positive] = [
      await takeIn(shop, { sample: 'CWD-118' }),
      await takeIn(shop, { hunter: { name: 'B' }, sample: 'CWD-119' }),
    ];
    for (const id of [clear, positive])
      await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect(await shop.problem('pickup.release', { id: clear, to: 'Dana' })).toMatchObject({
      kind: 'refused',
      code: 'release.held',
      with: { sample: 'CWD-118' },
    });
    await shop.call('animals.testResult', { id: clear, result: 'not detected' });
    await shop.call('animals.testResult', { id: positive, result: 'positive' });
    await shop.call('pickup.release', { id: clear, to: 'Dana' });
    expect(await shop.problem('pickup.release', { id: positive, to: 'B' })).toMatchObject({
      code: 'release.held',
    });
    expect(
      await shop.problem('table.weigh', { animalId: clear, stage: 'cut', part: 'trim', typed: '3' }),
    ).toMatchObject({ code: 'animal.closed' });
  });
});

describe('bad input', () => {
  const rubbish = [
    undefined,
    null,
    7,
    'text',
    [],
    { id: -1 },
    { id: 1.5 },
    { id: Number.NaN },
    { text: 4 },
    { animalId: {}, typed: [] },
    JSON.parse('{"__proto__":{"id":1}}'),
  ];

  it.each(Object.keys(procedures))(
    '%s answers rubbish with a problem or a look, never with a crash',
    async (name) => {
      const shop = await freshDesk();
      for (const input of rubbish) {
        if (name === 'shop.openDemo') continue;
        const answer = await shop.desk.call(name, input);
        if (!answer.ok) expect(answer.problem.kind).not.toBe('broken');
      }
      expect(shop.broken).toEqual([]);
      shop.desk.close();
    },
  );

  it.each(['__proto__', 'constructor', 'toString', 'shop.look ', 'SHOP.LOOK', ''])(
    'does not know a call named %j',
    async (name) => {
      const shop = await freshDesk();
      expect(await shop.problem(name as 'shop.get', {})).toEqual({ kind: 'missing', code: 'call.unknown' });
    },
  );

  it('keeps SQL, HTML, emoji, right-to-left and long names unchanged, and refuses NUL and overlong text', async () => {
    const shop = await freshDesk();
    for (const name of [
      "Robert'); DROP TABLE hunter;--",
      '<img src=x onerror=alert(1)>',
      '🦌 Hirsch',
      'חיים כהן',
      '=HYPERLINK("x")',
      'a'.repeat(200),
    ]) {
      const { id } = await shop.call('hunters.save', { name });
      expect(
        (await shop.call('hunters.find', { text: name.slice(0, 20) })).find((one) => one.id === id)?.name,
      ).toBe(name);
    }
    expect(await shop.problem('hunters.save', { name: 'a\u0000b' })).toMatchObject({
      kind: 'invalid',
      code: 'text.control',
      field: 'name',
    });
    expect(await shop.problem('hunters.save', { name: 'a'.repeat(10_000) })).toMatchObject({
      code: 'text.too-long',
    });
    expect(await shop.problem('hunters.save', { name: '   ' })).toMatchObject({
      code: 'text.needed',
      field: 'name',
    });
  });

  it('refuses impossible dates and keeps nothing of the intake', async () => {
    const shop = await freshDesk();
    const base = {
      hunter: { name: 'Kim' },
      species: 'elk',
      sex: 'male',
      age: 'adult',
      brought: 'skinned',
    } as const;
    expect(await shop.problem('intake.takeIn', { ...base, killDate: '2026-02-30' })).toMatchObject({
      code: 'date.unreadable',
      field: 'killDate',
    });
    expect(await shop.problem('intake.takeIn', { ...base, killDate: '2026-10-11' })).toMatchObject({
      code: 'date.killed-after-received',
    });
    expect(await shop.problem('intake.takeIn', { ...base, receivedOn: '2026-12-01' })).toMatchObject({
      code: 'date.future',
    });
    expect(
      await shop.problem('intake.takeIn', { ...base, weights: [{ stage: 'received', typed: 'lots' }] }),
    ).toMatchObject({ code: 'reading.unreadable' });
    expect(await shop.call('hunters.find', { text: 'Kim' })).toEqual([]);
    expect((await shop.call('rail.get', {})).hooks).toEqual([]);
  });
});
