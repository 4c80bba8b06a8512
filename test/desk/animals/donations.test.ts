/** Meat that is donated, meat that goes back as it came, and meat that nobody comes for. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LINE = {
  code: 'cut', label: 'Cutting', basis: 'hanging', amountMinor: 110, rate: null, unit: 'lb', species: null, brought: null,
  product: null, fatSource: null, taxRate: 0,
} as const; // prettier-ignore
const SMALLEST = { ...LINE, code: 'least', label: 'Smallest charge', basis: 'minimum', amountMinor: 9500, unit: null } as const; // prettier-ignore
const HOUR = {
  ...LINE,
  code: 'hour',
  label: 'Boning out',
  basis: 'hour',
  amountMinor: 4000,
  unit: null,
} as const;
const PROGRAM = { name: 'Hunters Share', paysMinor: 150, paysUnit: 'lb' } as const;
const GIFT = { program: 'Hunters Share', whole: false, typed: '12.5', confirmation: 'HS-88' };
const DAY = 86_400;

async function packed(shop: FreshDesk) {
  await shop.call('shop.saveSettings', { changes: { donationPrograms: [PROGRAM] } });
  const id = await takeIn(shop);
  await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product: 'Ground', count: 40, typed: '40' });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  return id;
} // prettier-ignore

describe('a donation', () => {
  it('of a part keeps program, confirmation number, weight as typed and what the program pays', async () => {
    const shop = await freshDesk();
    const id = await packed(shop);
    await shop.call('donations.add', { id, ...GIFT, by: 'MK' });
    expect(await shop.call('animals.get', { id })).toMatchObject({
      stage: 'ready',
      // 12.5 lb at $1.50.
      donations: [{ program: 'Hunters Share', typed: '12.5', confirmation: 'HS-88', owesMinor: 1875, whole: false, on: '2026-10-10', by: 'MK' }],
    });
    const [row] = await shop.call('records.list', {});
    expect(row?.donations).toMatchObject([{ program: 'Hunters Share', confirmation: 'HS-88', on: '2026-10-10' }]);
    expect(await shop.problem('donations.add', { id, ...GIFT, typed: '27.6' })).toMatchObject({ code: 'donation.more', field: 'typed' });
    expect(await shop.problem('donations.add', { id, ...GIFT, program: 'Nobody' })).toMatchObject({ code: 'donation.program' });
    shop.desk.close();
  }); // prettier-ignore

  it('of all of it hands the animal to the program without a bill, and reopening voids it', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const id = await packed(shop);
    const gift = await shop.call('donations.add', { id, ...GIFT, whole: true, typed: '40' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'released', release: { to: 'Hunters Share' } });
    expect(await shop.problem('donations.void', { id: gift.id, reason: 'x' })).toMatchObject({ code: 'donation.left' });
    await shop.call('animals.reopen', { id, reason: 'not fetched' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'ready', donations: [] });
    shop.desk.close();
  }); // prettier-ignore

  it('waits while the animal is on hold for its result', async () => {
    const shop = await freshDesk();
    const id = await packed(shop);
    await shop.call('animals.hold', { id, reason: 'sample', sample: 'L-7' });
    expect(await shop.problem('donations.add', { id, ...GIFT })).toMatchObject({ code: 'release.held' });
    await shop.call('animals.testResult', { id, result: 'not detected' });
    await shop.call('donations.add', { id, ...GIFT });
    shop.desk.close();
  });

  it('is listed by program and month, voided ones left out', async () => {
    const shop = await freshDesk();
    const id = await packed(shop);
    await shop.call('donations.add', { id, ...GIFT });
    await shop.call('donations.add', { id, ...GIFT, typed: '1.01' });
    const wrong = await shop.call('donations.add', { id, ...GIFT, typed: '5' });
    await shop.call('donations.void', { id: wrong.id, reason: 'typed for another' });
    shop.wait(30 * DAY);
    await shop.call('donations.add', { id, ...GIFT, typed: '2' });
    const { rows, months } = await shop.call('donations.list', {});
    expect(rows).toHaveLength(3);
    // $18.75 and $1.515, which is $1.52; then $3.00.
    expect(months.map(({ month, program, count, owesMinor, grams }) => [month, program, count, owesMinor, Math.round(grams)])).toEqual([
      ['2026-10', 'Hunters Share', 2, 2027, Math.round(13.51 * 453.59237)],
      ['2026-11', 'Hunters Share', 1, 300, Math.round(2 * 453.59237)],
    ]);
    expect((await shop.call('donations.list', { season: 2025 })).rows).toEqual([]);
    shop.desk.close();
  }); // prettier-ignore
});

describe('meat back unprocessed', () => {
  it('is worked on after all once a part, trim into the grinder or a package is weighed, not by a corrected weight', async () => {
    const shop = await freshDesk();
    for (const [stage, part] of [['cut', 'whole cuts'], ['cut', 'trim'], ['packed', 'package']] as const) {
      const id = await takeIn(shop);
      await shop.call('unprocessed.add', { id, reason: 'x' });
      const { weighings } = await shop.call('animals.get', { id });
      await shop.call('table.correct', { weighingId: weighings[0]?.id ?? 0, typed: '398', reason: 'misread' });
      expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'ready', unprocessed: { reason: 'x' } });
      await shop.call('table.weigh', { animalId: id, stage, part, typed: '30', ...(stage === 'packed' && { product: 'Ground', count: 30 }) });
      expect(await shop.call('animals.get', { id })).toMatchObject({ stage: stage === 'packed' ? 'packing' : 'cutting', unprocessed: null });
    }
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '30' });
    await shop.call('unprocessed.add', { id, reason: 'x' });
    const { id: batchId } = await shop.call('grinder.start', { animals: [{ id }], fat: 'none', targetFat: null, product: 'Ground' });
    await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '30' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'cutting', unprocessed: null });
    shop.desk.close();
  }); // prettier-ignore

  it('is ready at once and billed only for what was done', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE, SMALLEST, HOUR] });
    const id = await takeIn(shop);
    const full = await shop.call('bills.get', { animalId: id });
    expect(full.draft?.totalMinor).toBe(44_000);
    await shop.call('unprocessed.add', { id, reason: 'takes it to another shop', by: 'MK' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'ready', unprocessed: { reason: 'takes it to another shop', by: 'MK' } });
    expect((await shop.call('pickup.get', {}))[0]).toMatchObject({ id, unprocessed: true });
    expect((await shop.call('bills.get', { animalId: id })).draft).toMatchObject({ totalMinor: 0, lines: [] });
    expect(await shop.problem('unprocessed.add', { id, reason: 'x' })).toMatchObject({ code: 'unprocessed.stated' });
    await shop.call('unprocessed.void', { id, reason: 'stays here' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'hanging', unprocessed: null });
    expect((await shop.call('bills.get', { animalId: id })).draft?.totalMinor).toBe(44_000);
    shop.desk.close();
  }); // prettier-ignore

  it('ends when somebody works on it, and is refused once meat was packed', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('unprocessed.add', { id, reason: 'x' });
    await shop.call('animals.setStage', { id, stage: 'cutting' });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'cutting', unprocessed: null });
    expect(await shop.problem('unprocessed.void', { id, reason: 'x' })).toMatchObject({ code: 'unprocessed.none' });
    await cut(shop, id, { trim: '60' });
    await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product: 'Steaks', count: 9, typed: '30' });
    expect(await shop.problem('unprocessed.add', { id, reason: 'x' })).toMatchObject({ code: 'unprocessed.packed' });
    shop.desk.close();
  }); // prettier-ignore
});

describe('what nobody comes for', () => {
  it('is due for a first, a second and a last notice by the days of the shop', async () => {
    const shop = await freshDesk();
    const id = await packed(shop);
    await shop.call('shop.saveSettings', { changes: { unclaimedFirstDays: 10, unclaimedSecondDays: 20, unclaimedLastDays: 30 } });
    const due = async () => (await shop.call('pickup.get', {}))[0]?.noticeDue;
    expect(await due()).toBeNull();
    shop.wait(10 * DAY);
    expect(await due()).toBe('first');
    expect(await shop.problem('pickup.saveNotice', { id, step: 'second', how: 'call' })).toMatchObject({ code: 'notice.order' });
    const first = await shop.call('pickup.saveNotice', { id, step: 'first', how: 'call', note: 'left word', by: 'RO' });
    expect(await due()).toBeNull();
    expect(await shop.problem('pickup.saveNotice', { id, step: 'first', how: 'call' })).toMatchObject({ code: 'notice.given' });
    shop.wait(10 * DAY);
    expect(await due()).toBe('second');
    expect(await shop.problem('pickup.saveNotice', { id, step: 'second', how: 'letter', on: '2026-10-19' })).toMatchObject({ code: 'notice.before-ready' });
    await shop.call('pickup.saveNotice', { id, step: 'second', how: 'letter' });
    expect(await shop.problem('pickup.voidNotice', { id: first.id, reason: 'x' })).toMatchObject({ code: 'notice.followed' });
    expect((await shop.call('animals.get', { id })).notices).toMatchObject([
      { step: 'first', how: 'call', on: '2026-10-20', note: 'left word', by: 'RO' },
      { step: 'second', how: 'letter', on: '2026-10-30' },
    ]);
    shop.desk.close();
  }); // prettier-ignore

  it('is donated as unclaimed only after the last notice', async () => {
    const shop = await freshDesk();
    const id = await packed(shop);
    const gift = { id, ...GIFT, whole: true, typed: '40', why: 'unclaimed' } as const;
    expect(await shop.problem('donations.add', gift)).toMatchObject({ code: 'donation.not-noticed' });
    for (const step of ['first', 'second', 'last'] as const)
      await shop.call('pickup.saveNotice', { id, step, how: 'letter' });
    await shop.call('donations.add', gift);
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'released', donations: [{ why: 'unclaimed' }] });
    const story = (await shop.call('animals.getHistory', { id })).map(({ what }) => what);
    expect(story).toEqual(expect.arrayContaining(['notice', 'donated', 'released']));
    shop.desk.close();
  }); // prettier-ignore
});
