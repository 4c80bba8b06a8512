/** What is cut next, by the order of `cutOrder` over the animals that really hang. */
import { describe, expect, it } from 'vitest';
import { freshDesk, takeIn } from '../fresh-desk.ts';

describe('the rail', () => {
  it('has a weight as it was typed, if it is one and names its unit', async () => {
    const shop = await freshDesk();
    const ounces = await takeIn(shop, { species: 'mule-deer' }, '108 lb 2 oz');
    const bare = await takeIn(shop, { species: 'mule-deer' }, '108.1');
    const sides = await takeIn(shop, { species: 'elk' }, '190 lb 4 oz');
    shop.wait(60);
    await shop.call('table.weigh', {
      animalId: sides,
      stage: 'hanging',
      part: 'carcass',
      typed: '186 lb 8 oz',
      confirmed: true,
    });
    const { hooks, counts } = await shop.call('rail.get', {});
    const said = (of: number) => hooks.find(({ id }) => id === of)?.said;
    expect([said(ounces), said(bare), said(sides)]).toEqual(['108 lb 2 oz', null, null]);
    expect(counts).toMatchObject({ onRail: 3, cutting: 0 });
    await shop.call('animals.setStage', { id: bare, stage: 'cutting' });
    expect((await shop.call('rail.get', {})).counts).toMatchObject({ onRail: 3, cutting: 1 });
  });

  it('says what is next and why, and leaves out what is held, on the table or not allowed', async () => {
    const shop = await freshDesk();
    const on = (receivedOn: string, more: Parameters<typeof takeIn>[1] = {}) =>
      takeIn(shop, { receivedOn, ...more });
    const fresh = await on('2026-10-09');
    const over = await on('2026-10-01');
    const promised = await on('2026-10-08', { promisedOn: '2026-10-12' });
    const heavy = await on('2026-10-06');
    const light = await takeIn(shop, { receivedOn: '2026-10-06', species: 'mule-deer' }, '80');
    const held = await on('2026-09-20', { sample: 'L-1' });
    const table = await on('2026-10-02');
    await shop.call('animals.setStage', { id: table, stage: 'cutting' });
    const next = async () => (await shop.call('rail.get', {})).next;
    expect(await next()).toEqual([
      { id: over, ticket: '26-0002', why: 'over-limit' },
      { id: promised, ticket: '26-0003', why: 'promised' },
      { id: light, ticket: '26-0005', why: 'light' },
      { id: heavy, ticket: '26-0004', why: 'ready' },
      { id: fresh, ticket: '26-0001', why: 'oldest' },
    ]);
    await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
    expect((await next())[0]).toMatchObject({ id: held, why: 'over-limit' });
    await shop.call('animals.testResult', { id: held, result: 'positive' });
    expect((await next()).map(({ id }) => id)).not.toContain(held);
    expect((await shop.call('rail.get', {})).hooks.find(({ id }) => id === held)?.hold).toBe('positive');
  });
});
