/** How an animal came in and when it was promised are edited, and what is learned of it follows. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn } from '../fresh-desk.ts';

const reason = 'read off the tag';

describe('editing what was brought', () => {
  it('counts the animal as what it is in the sums, and keeps what stood there', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { brought: 'whole', legs: 'on' });
    await cut(shop, id, { 'whole cuts': '100', trim: '60', 'fat saved': '10' });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    const parts = [{ primal: 'shoulder', count: 1 }, { primal: 'haunch', count: 2 }]; // prettier-ignore
    await shop.call('animals.edit', { id, changes: { brought: 'quarters', parts }, reason, by: 'MK' });
    const page = await shop.call('animals.get', { id });
    expect(page).toMatchObject({ brought: 'quarters', legs: 'unknown', parts: [{ primal: 'haunch', count: 2 }, { primal: 'shoulder', count: 1 }] }); // prettier-ignore
    const [entry] = await shop.call('animals.getHistory', { id });
    expect(entry).toMatchObject({ what: 'changed', by: 'MK', reason });
    expect(entry?.changes).toEqual([
      { field: 'brought', before: 'whole', after: 'quarters' },
      { field: 'legs', before: 'on', after: 'unknown' },
      {
        field: 'parts',
        before: '',
        after: {
          pieces: [
            { count: 2, primal: 'Hind leg' },
            { count: 1, primal: 'Shoulder' },
          ],
        },
      },
    ]);
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT brought, share FROM animal_sum').get()).toEqual({
        brought: 'quarters',
        share: null,
      });
    });
  });

  it('has no pieces once it is whole', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { brought: 'primals', parts: [{ primal: 'haunch', count: 1 }] }, '80');
    await shop.call('animals.edit', { id, changes: { brought: 'skinned' }, reason });
    expect(await shop.call('animals.get', { id })).toMatchObject({ brought: 'skinned', parts: [] });
    shop.desk.close();
  });

  it('refuses a piece that there is none of, and one that was weighed and should not have come', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { brought: 'primals', parts: [{ primal: 'haunch', count: 2 }] }, '120');
    const edit = async (parts: { primal: string; count: number }[]) =>
      await shop.problem('animals.edit', { id, changes: { parts }, reason });
    expect(await edit([{ primal: 'wing', count: 1 }])).toMatchObject({ code: 'primal.unknown', field: 'parts' });
    await shop.call('table.weigh', { animalId: id, stage: 'primal', part: 'primal', primal: 'haunch', typed: '60', confirmed: true });
    expect(await edit([{ primal: 'shoulder', count: 1 }])).toMatchObject({ code: 'edit.pieces-weighed', with: { primal: 'haunch' } });
    expect(await edit([{ primal: 'haunch', count: 2 }])).toMatchObject({ code: 'edit.nothing' });
    shop.desk.close();
  }); // prettier-ignore
});

describe('editing the day it is promised for', () => {
  it('changes, clears and is held to the day it came in', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const edit = (promisedOn: string | null) => ({ id, changes: { promisedOn }, reason });
    await shop.call('animals.edit', edit('2026-10-20'));
    expect((await shop.call('rail.get', {})).hooks[0]?.promisedOn).toBe('2026-10-20');
    expect(await shop.problem('animals.edit', edit('2026-10-09'))).toMatchObject({
      code: 'date.promised-before-received', field: 'promisedOn',
    });
    expect(await shop.problem('animals.edit', edit('2029-10-09'))).toMatchObject({ kind: 'conflict', code: 'date.far-ahead' });
    await shop.call('animals.edit', edit(null));
    const [entry] = await shop.call('animals.getHistory', { id });
    expect(entry?.changes).toEqual([{ field: 'promised_on', before: '2026-10-20', after: null }]);
    shop.desk.close();
  }); // prettier-ignore
});
