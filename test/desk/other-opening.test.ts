/**
 * A call is meant for one opening of a book, and nothing is done when another is open: the same numbers mean other
 * records in the demo, in the shop's book and in a backup. Every call of the desk is refused here; `writes` tries each write in its own
 * opening as well.
 */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { opensABook } from '../../src/bridge/client/opens-a-book.ts';
import { OTHER_OPENING } from '../../src/bridge/client/other-opening.ts';
import type { CallName } from '../../src/bridge/contract.ts';
import { openDesk, type Desk } from '../../src/desk/desk.ts';
import { procedures } from '../../src/desk/procedures.ts';
import type { ShopView } from '../../src/desk/contract/contract.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { freshDesk, takeIn, type FreshDesk } from './fresh-desk.ts';
import { guardedDesk } from './guarded-desk.ts';

const ALL = Object.keys(procedures) as CallName[];
/** Work on the file of the book, whichever it is, or tell which one is open. */
const OF_ANY_BOOK = ALL.filter((name) => procedures[name].kind === 'door' || name === 'shop.get');
const OF_ONE_BOOK = ALL.filter((name) => !OF_ANY_BOOK.includes(name));

async function openingOf(desk: Desk): Promise<string> {
  const look = await desk.call('shop.get', {}, null);
  if (!look.ok) throw new Error(look.problem.code);
  return (look.value as ShopView).opening;
}

describe('a call that is meant for another opening of a book', () => {
  let shop: FreshDesk;
  beforeAll(async () => void (shop = await freshDesk()));
  afterAll(() => shop.desk.close());

  it.each(OF_ONE_BOOK)('%s is refused', async (name) => {
    for (const opening of ['of another book', null])
      expect(await shop.desk.call(name, {}, opening)).toEqual(OTHER_OPENING);
  });

  it.each(OF_ANY_BOOK)('%s is answered whatever is open', async (name) => {
    expect(await shop.desk.call(name, { path: 'nowhere' }, 'of another book')).not.toEqual(OTHER_OPENING);
  });
});

describe('an opening', () => {
  it('is another one in the demo, after leaving it, after a restore and after a restart, and is written nowhere', async () => {
    const shop = await guardedDesk();
    const seen = [await openingOf(shop.desk)];
    const next = async (name: CallName, input: unknown) => {
      const answer = await shop.desk.call(name, input);
      if (!answer.ok) throw new Error(`${name}: ${answer.problem.code}`);
      expect(opensABook(name)).toBe(true);
      seen.push(await openingOf(shop.desk));
    };
    await shop.call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
    expect(await openingOf(shop.desk)).toBe(seen[0]);
    const { path } = await shop.call('shop.backUp', {});
    await next('shop.openDemo', {});
    await next('shop.leaveDemo', {});
    await next('shop.restore', { path });
    shop.desk.close();
    for (const one of seen) expect(readFileSync(shop.bookPath, 'latin1')).not.toContain(one);
    const again = await openDesk({ bookPath: shop.bookPath });
    seen.push(await openingOf(again));
    again.close();
    expect(new Set(seen).size).toBe(5);
  }, 60_000);

  it('is told with every change, also when no book is open any more', async () => {
    const shop = await guardedDesk(tempBookPath());
    const heard: (string | null)[] = [];
    shop.desk.onChanged(({ opening }) => heard.push(opening));
    await shop.call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
    const first = await openingOf(shop.desk);
    const { path } = await shop.call('shop.backUp', {});
    await shop.call('shop.restore', { path });
    expect(heard).toEqual([first, first, await openingOf(shop.desk)]);
    expect(heard[2]).not.toBe(first);
  });

  it('ends under a call that waits for the solver, which then writes nowhere', async () => {
    const shop = await guardedDesk();
    await shop.call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
    const id = await takeIn({ ...shop, problem: shop.problem });
    await shop.call('table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed: '60' });
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '20' });
    const { path } = await shop.call('shop.backUp', {});
    const opening = await openingOf(shop.desk);
    const started = shop.desk.call(
      'grinder.start',
      { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.15, product: 'Ground' },
      opening,
    );
    expect(await shop.desk.call('shop.restore', { path }, opening)).toMatchObject({ ok: true });
    expect(await started).toEqual(OTHER_OPENING);
    expect((await shop.call('grinder.get', {})).open).toEqual([]);
    expect(shop.broken).toEqual([]);
  });
});
