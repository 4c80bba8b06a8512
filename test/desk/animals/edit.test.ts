/** Putting the record of an animal right afterwards, and the history that tells of it. */
import { describe, expect, it } from 'vitest';
import { openRecordBook } from '../../../src/book/book.ts';
import { cut, freshDesk, inBook, takeIn } from '../fresh-desk.ts';

describe('mending a record', () => {
  it('fills what is missing, also after the animal left, and keeps who, why and what stood there', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { tag: 'E-1' });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    const changes = { tag: 'E-1017', killArea: 'Unit 23', killDate: '2026-10-08', address: '4 Mill Lane' };
    shop.wait(60);
    await shop.call('animals.edit', { id, changes, reason: 'read off the licence', by: 'MK' });
    const [row] = await shop.call('records.list', {});
    expect(row).toMatchObject({ ...changes, lacks: ['licence'] });
    const story = (await shop.call('animals.getHistory', { id })).slice(0, 2);
    expect(story).toEqual([
      expect.objectContaining({
        what: 'changed', by: 'MK', reason: 'read off the licence',
        changes: [
          { field: 'tag', before: 'E-1', after: 'E-1017' },
          { field: 'kill_date', before: null, after: '2026-10-08' },
          { field: 'kill_area', before: '', after: 'Unit 23' },
        ],
      }),
      expect.objectContaining({
        what: 'owner-changed', by: 'MK', reason: 'read off the licence',
        changes: [{ field: 'address', before: '', after: '4 Mill Lane' }],
      }),
    ]); // prettier-ignore
  });

  it('wants a reason, a change, and a field that there is', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { tag: 'E-1' });
    const refused = async (input: object) => (await shop.problem('animals.edit', { id, ...input })).code;
    expect(await refused({ changes: { tag: 'E-2' }, reason: ' ' })).toBe('text.needed');
    expect(await refused({ changes: { tag: 'E-1' }, reason: 'so' })).toBe('edit.nothing');
    expect(await refused({ changes: {}, reason: 'so' })).toBe('edit.nothing');
    expect(await refused({ changes: { ticket: '26-0009' }, reason: 'so' })).toBe('input.invalid');
    expect(await refused({ changes: { sex: 'none' }, reason: 'so' })).toBe('choice.sex');
    expect((await shop.problem('animals.edit', { id: 99, changes: {}, reason: 'so' })).code).toBe(
      'animal.unknown',
    );
  });

  it('refuses days that cannot be, and leaves everything as it was', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { receivedOn: '2026-10-01', promisedOn: '2026-10-05' });
    const refused = async (changes: object) =>
      (
        await shop.problem('animals.edit', {
          id,
          changes: { address: 'Elsewhere 1', ...changes },
          reason: 'so',
        })
      ).code;
    expect(await refused({ receivedOn: '2026-10-11' })).toBe('date.future');
    expect(await refused({ killDate: '2026-10-02' })).toBe('date.killed-after-received');
    expect(await refused({ receivedOn: '2026-07-01' })).toBe('date.long-ago');
    expect(await refused({ receivedOn: '0026-10-01' })).toBe('date.year');
    expect(await refused({ receivedOn: '2026-10-06' })).toBe('date.promised-before-received');
    expect(await refused({ killDate: '2026-02-30' })).toBe('date.unreadable');
    const [row] = await shop.call('records.list', {});
    expect(row).toMatchObject({ address: '', receivedOn: '2026-10-01', killDate: null });
  });

  it('does not let an animal come in after it left', async () => {
    const shop = await freshDesk('lb', '2026-10-10T15:00:00Z');
    const id = await takeIn(shop, { receivedOn: '2026-10-01' });
    await shop.call('animals.dispose', {
      id,
      what: 'All',
      how: 'Landfill',
      reason: 'spoiled',
      on: '2026-10-05',
    });
    const late = { id, changes: { receivedOn: '2026-10-06' }, reason: 'so' };
    expect(await shop.problem('animals.edit', late)).toMatchObject({ code: 'edit.after-left' });
  });

  it('changes the species only to one that has all its pieces', async () => {
    const shop = await freshDesk();
    const plain = await takeIn(shop, { species: 'white-tail' }, '90');
    shop.wait(60);
    await shop.call('animals.edit', {
      id: plain,
      changes: { species: 'mule-deer' },
      reason: 'tail looked at',
    });
    expect(await shop.call('animals.get', { id: plain })).toMatchObject({ species: { code: 'mule-deer' } });
    const [story] = await shop.call('animals.getHistory', { id: plain });
    expect(story?.changes).toEqual([{ field: 'species', before: 'White-tailed deer', after: 'Mule deer' }]);

    const elk = await takeIn(shop);
    await shop.call('table.weigh', {
      animalId: elk, stage: 'primal', part: 'primal', primal: 'haunch', typed: '30', confirmed: true,
    }); // prettier-ignore
    expect(
      await shop.problem('animals.edit', { id: elk, changes: { species: 'black-bear' }, reason: 'so' }),
    ).toMatchObject({ code: 'edit.pieces', field: 'species' });
  });

  it('gives it to its right owner, one of the book or a new one, and leaves the other’s tickets alone', async () => {
    const shop = await freshDesk();
    const [elk, other] = [
      await takeIn(shop),
      await takeIn(shop, { hunter: { name: 'Ada Mabry', phone: '5' } }),
    ];
    const ada = (await shop.call('animals.get', { id: other })).hunter;
    shop.wait(60);
    await shop.call('animals.edit', { id: elk, changes: { owner: { id: ada.id }, age: 'young', address: '4 Mill Lane' }, reason: 'mixed up' }); // prettier-ignore
    expect(await shop.call('animals.get', { id: elk })).toMatchObject({
      hunter: { id: ada.id, name: 'Ada Mabry', address: '4 Mill Lane' },
      age: 'young',
    });
    const [story] = (await shop.call('animals.getHistory', { id: elk })).filter(
      ({ what }) => what === 'changed',
    );
    expect(story?.changes).toEqual([
      { field: 'hunter_id', before: 'Dana Whitlock', after: 'Ada Mabry' },
      { field: 'age', before: 'adult', after: 'young' },
    ]);

    const owner = { name: 'Wes Rourke', address: '', phone: '', email: '', licence: '' };
    await shop.call('animals.edit', { id: elk, changes: { owner }, reason: 'her brother’s' });
    await shop.call('animals.edit', { id: elk, changes: { name: 'Wesley Rourke' }, reason: 'his licence' });
    expect((await shop.call('animals.get', { id: elk })).hunter).toMatchObject({
      name: 'Wesley Rourke',
      animals: 1,
    });
    expect((await shop.call('animals.get', { id: other })).hunter).toMatchObject({
      name: 'Ada Mabry',
      animals: 1,
    });

    const nobody = { id: elk, changes: { owner: { id: 99 } }, reason: 'so' };
    expect((await shop.problem('animals.edit', nobody)).code).toBe('hunter.unknown');
  });

  it('says who really took it and when, over what was written first', async () => {
    const shop = await freshDesk('lb', '2026-10-10T15:00:00Z');
    const id = await takeIn(shop, { receivedOn: '2026-10-01' });
    const mended = (changes: object) => ({ id, changes, reason: 'asked on the phone' });
    expect(await shop.problem('animals.edit', mended({ givenTo: 'Ada' }))).toMatchObject({
      code: 'edit.still-here',
      field: 'givenTo',
    });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    shop.wait(60);
    const code = async (changes: object) => (await shop.problem('animals.edit', mended(changes))).code;
    expect(await code({ releasedOn: '2026-09-30' })).toBe('edit.left-before-received');
    expect(await code({ releasedOn: '2026-10-11' })).toBe('date.future');
    expect(await code({ givenTo: 'Dana Whitlock', releasedOn: '2026-10-10' })).toBe('edit.nothing');
    expect(await code({ givenTo: ' ' })).toBe('text.needed');
    await shop.call('animals.edit', mended({ givenTo: 'Ada Mabry' }));
    shop.wait(60);
    await shop.call('animals.edit', mended({ releasedOn: '2026-10-09' }));
    const [row] = await shop.call('records.list', {});
    expect(row).toMatchObject({ releasedTo: 'Ada Mabry', releasedOn: '2026-10-09' });
    expect((await shop.call('animals.getHistory', { id })).slice(0, 3)).toEqual([
      expect.objectContaining({
        changes: [{ field: 'released_on', before: '2026-10-10', after: '2026-10-09' }],
      }),
      expect.objectContaining({
        changes: [{ field: 'given_to', before: 'Dana Whitlock', after: 'Ada Mabry' }],
      }),
      expect.objectContaining({ what: 'released', facts: expect.objectContaining({ to: 'Dana Whitlock' }) }),
    ]);
    // What need not be kept any longer is counted by the day as it was put right, too.
    expect(
      inBook(shop, (book) => ['2026-10-09', '2026-10-10'].map((day) => book.records.leftBefore(day))),
    ).toEqual([0, 1]);
  });
});

describe('the history of an animal', () => {
  it('tells all that happened, newest first, each with its own words', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-4' });
    const step = async (work: Promise<unknown>) => {
      await work;
      shop.wait(60);
    };
    shop.wait(60);
    await step(shop.call('animals.testResult', { id, result: 'not detected', note: 'by letter' }));
    await step(cut(shop, id, { trim: '120' }));
    const [wrong] = (await shop.call('animals.get', { id })).weighings.slice(-1);
    await step(
      shop.call('table.correct', { weighingId: wrong?.id ?? 0, typed: '102', reason: 'digits swapped' }),
    );
    await step(cut(shop, id, { bone: '80' }));
    const [bone] = (await shop.call('animals.get', { id })).weighings.slice(-1);
    await step(shop.call('table.void', { weighingId: bone?.id ?? 0, reason: 'another animal' }));
    const { instructions } = await shop.call('animals.get', { id });
    await step(shop.call('animals.saveOrders', { id, instructions }));
    await step(
      shop.call('animals.saveOrders', {
        id,
        instructions: { ...instructions, note: 'bones for the dog', primals: [{ primal: 'haunch', as: 'roasts', size: '' }] },
      }),
    ); // prettier-ignore
    await step(shop.call('bills.create', { animalId: id, confirmed: true }));
    await step(shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '5' }));
    await step(
      shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true }),
    );
    await step(shop.call('pickup.saveNote', { id, text: 'left a message' }));
    await step(shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' }));
    const story = await shop.call('animals.getHistory', { id });
    expect(story.map(({ what }) => what)).toEqual([
      'released', 'called', 'changed', 'paid', 'billed', 'instructed', 'instructed', 'weight-voided', 'weighed',
      'weight-corrected', 'changed', 'weighed', 'test-result', 'weighed', 'held', 'taken-in',
    ]); // prettier-ignore
    expect(story.find(({ what }) => what === 'weight-corrected')).toMatchObject({
      facts: { was: '120', typed: '102', part: 'trim' },
      reason: 'digits swapped',
    });
    const [orders] = story.filter(({ what }) => what === 'instructed');
    expect(orders?.changes).toEqual(
      expect.arrayContaining([
        { field: 'note', before: '', after: 'bones for the dog' },
        expect.objectContaining({
          field: 'piece',
          before: null,
          after: expect.objectContaining({ as: 'roasts' }),
        }),
      ]),
    );
  });
});

describe('the history of an animal with thousands of changes', () => {
  it('is told without holding the desk: its beginning is looked up once, and not for each of them', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const other = openRecordBook(shop.bookPath, new Date('2026-10-10T15:00:00Z'));
    other.change(() => {
      for (let i = 0; i < 5000; i++)
        other.audit.note({
          record: 'animal', recordId: id, act: 'change', before: { kill_area: `${i}` }, after: { kill_area: `${i + 1}` },
          at: '2026-10-10T15:00:00.000Z', by: 'RO',
        }); // prettier-ignore
    });
    other.close();
    const began = performance.now();
    expect((await shop.call('animals.getHistory', { id })).length).toBeGreaterThan(5000);
    // 0.1 s on an idle computer; with a look for each change 8 s.
    expect(performance.now() - began).toBeLessThan(2500);
    shop.desk.close();
  });
});
