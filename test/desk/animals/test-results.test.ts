/** Results of a laboratory: what they do to a hold, and what meat that was ground together waits for. */
import { describe, expect, it } from 'vitest';
import { cut, deskOn, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const BATCH = { fat: 'none', targetFat: null, product: 'Ground' } as const;

/** Two animals whose trim was ground in one batch; the first is put on hold afterwards. */
async function groundTogether(shop: FreshDesk): Promise<{ held: number; other: number; batchId: number }> {
  const held = await takeIn(shop);
  const other = await takeIn(shop, { hunter: { name: 'Ana' } });
  for (const id of [held, other]) await cut(shop, id, { trim: '30' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: held }, { id: other }],
    ...BATCH,
  });
  for (const animalId of [held, other])
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '30' });
  await shop.call('grinder.pack', { batchId, product: 'Ground', count: 60, typed: '58' });
  await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L26-118' });
  return { held, other, batchId };
}

describe('a test result', () => {
  it('ends the hold where nothing was detected, and is kept with sample, laboratory and day', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-118' });
    await shop.call('animals.testResult', {
      id,
      result: 'not detected',
      lab: 'State lab',
      on: '2026-10-09',
      by: 'RO',
    });
    const page = await shop.call('animals.get', { id });
    expect(page.hold).toBeNull();
    expect(page.results).toMatchObject([
      {
        result: 'not detected',
        sample: 'L26-118',
        lab: 'State lab',
        on: '2026-10-09',
        by: 'RO',
        counts: true,
      },
    ]);
  });

  it('keeps the hold where it is positive', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-118' });
    await shop.call('animals.testResult', { id, result: 'positive' });
    expect((await shop.call('animals.get', { id })).hold).toMatchObject({ positive: true });
    expect(await shop.problem('animals.endHold', { id, reason: 'so' })).toMatchObject({
      code: 'hold.positive',
    });
  });

  it('is corrected by a new row with the reason, both ways, and the first stays in the book', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-118' });
    await shop.call('animals.testResult', { id, result: 'positive' });
    const holdId = (await shop.call('animals.get', { id })).hold?.id ?? 0;
    const again = { id, holdId, result: 'not detected' as const };
    expect(await shop.problem('animals.testResult', again)).toMatchObject({
      kind: 'invalid',
      code: 'result.reason',
      with: { before: 'positive' },
    });
    await shop.call('animals.testResult', { ...again, reason: 'read for another sample' });
    expect((await shop.call('animals.get', { id })).hold).toBeNull();
    await shop.call('animals.testResult', { id, holdId, result: 'none', reason: 'another animal' });
    expect((await shop.call('animals.get', { id })).hold).toMatchObject({ positive: false });
    await shop.call('animals.testResult', { id, result: 'positive' });
    const page = await shop.call('animals.get', { id });
    expect(page.hold).toMatchObject({ positive: true });
    expect(page.results.map(({ result, counts }) => [result, counts])).toEqual([
      ['positive', true],
      ['none', false],
      ['not detected', false],
      ['positive', false],
    ]);
    const told = await shop.call('animals.getHistory', { id });
    expect(told.filter(({ what }) => what === 'test-result')).toHaveLength(4);
    expect(() =>
      inBook(shop, (book) => book.db.exec("UPDATE hold_result SET result = 'not detected'")),
    ).toThrow(/written once/);
  });

  it('asks where the sample is not the one that the hold waits for', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-118' });
    const typed = { id, result: 'not detected' as const, sample: 'L26-181' };
    expect(await shop.problem('animals.testResult', typed)).toMatchObject({
      kind: 'conflict',
      code: 'result.other-sample',
      with: { sample: 'L26-118', typed: 'L26-181' },
    });
    await shop.call('animals.testResult', { ...typed, confirmed: true });
    expect((await shop.call('animals.get', { id })).hold).toBeNull();
  });

  it('wants a hold, a day that can be, and a result to take back', async () => {
    const shop = await freshDesk();
    const free = await takeIn(shop);
    expect(await shop.problem('animals.testResult', { id: free, result: 'positive' })).toMatchObject({
      code: 'hold.none',
    });
    const id = await takeIn(shop, { hunter: { name: 'Ana' }, sample: '7', killDate: '2026-10-08' });
    const with_ = (more: object) => shop.problem('animals.testResult', { id, result: 'positive', ...more });
    expect(await with_({ on: '2026-10-11' })).toMatchObject({ code: 'date.future' });
    expect(await with_({ on: '2026-10-07' })).toMatchObject({ code: 'result.before-kill' });
    expect(await with_({ result: 'none' })).toMatchObject({ code: 'result.nothing-to-correct' });
    const holdId = (await shop.call('animals.get', { id })).hold?.id;
    expect(await shop.problem('animals.testResult', { id: free, holdId, result: 'positive' })).toMatchObject({
      code: 'hold.none',
    });
  });

  it('corrects what a book of before says of a hold', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L1' });
    inBook(shop, (book) =>
      book.db.exec(
        "INSERT INTO hold_end (hold_id, outcome, note, at, by) VALUES (1, 'positive', 'by letter', '2026-10-10T15:00:00.000Z', 'RO')",
      ),
    );
    const again = await deskOn(shop.bookPath);
    expect((await again.call('animals.get', { id })).hold).toMatchObject({ positive: true });
    const correct = { id, result: 'not detected' as const };
    expect(await again.problem('animals.testResult', correct)).toMatchObject({ code: 'result.reason' });
    await again.call('animals.testResult', { ...correct, reason: 'another animal' });
    expect((await again.call('animals.get', { id })).hold).toBeNull();
    await again.call('animals.testResult', { id, holdId: 1, result: 'none', reason: 'of another animal' });
    await again.call('animals.endHold', { id, reason: 'entered for the wrong animal' });
    expect((await again.call('animals.get', { id })).hold).toBeNull();
  });
});

describe('meat ground together with that of an animal on hold', () => {
  const refused = { kind: 'refused', code: 'pooled.held', with: { other: '26-0001', batch: 'G26-001' } };

  it.each(['hanging', 'cutting', 'packing'] as const)('is not set ready from %s', async (stage) => {
    const shop = await freshDesk();
    const { other } = await groundTogether(shop);
    await shop.call('animals.setStage', { id: other, stage });
    expect(await shop.problem('animals.setStage', { id: other, stage: 'ready' })).toMatchObject(refused);
    expect((await shop.call('animals.get', { id: other })).stage).toBe(stage);
  });

  it('is not handed over where it was ready before the hold, paid or not, its fat included', async () => {
    const shop = await freshDesk();
    const { held, other } = await groundTogether(shop);
    await shop.call('animals.endHold', { id: held, reason: 'not needed' });
    await shop.call('animals.setStage', {
      id: other,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L26-119' });
    for (const unpaidBy of ['', 'RO'])
      expect(await shop.problem('pickup.release', { id: other, to: 'Ana', unpaidBy })).toMatchObject(refused);
    expect(await shop.call('pickup.get', {})).toMatchObject([
      { id: other, waitsFor: [{ ticket: '26-0001', batch: 'G26-001', positive: false }] },
    ]);
    expect((await shop.call('animals.get', { id: other })).release).toBeNull();
  });

  it('waits for all of its batches and names a positive one first', async () => {
    const shop = await freshDesk();
    const { held, other } = await groundTogether(shop);
    const third = await takeIn(shop, { hunter: { name: 'Cy' } });
    await cut(shop, third, { trim: '20' });
    await cut(shop, other, { trim: '10' });
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id: other }, { id: third }],
      ...BATCH,
    });
    for (const [animalId, typed] of [
      [other, '10'],
      [third, '20'],
    ] as const)
      await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed });
    await shop.call('animals.hold', { id: third, reason: 'sample', sample: '9' });
    await shop.call('animals.testResult', { id: third, result: 'positive' });
    const ready = { id: other, stage: 'ready' as const, answer: 'weighed again', confirmed: true };
    expect(await shop.problem('animals.setStage', ready)).toMatchObject({
      code: 'pooled.positive',
      with: { other: '26-0003', batch: 'G26-002' },
    });
    // Correcting one leaves the other in the way.
    await shop.call('animals.testResult', { id: third, result: 'not detected', reason: 'another animal' });
    expect(await shop.problem('animals.setStage', ready)).toMatchObject(refused);
    await shop.call('animals.testResult', { id: held, result: 'not detected' });
    await shop.call('animals.setStage', ready);
  });

  it('goes when the result is “not detected”, by itself', async () => {
    const shop = await freshDesk();
    const { held, other } = await groundTogether(shop);
    expect((await shop.call('animals.get', { id: other })).waitsFor).toHaveLength(1);
    await shop.call('animals.testResult', { id: held, result: 'not detected' });
    expect((await shop.call('animals.get', { id: other })).waitsFor).toEqual([]);
    await shop.call('animals.setStage', {
      id: other,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: other, to: 'Ana', unpaidBy: 'RO' });
  });

  it('stays for good after a positive result, also once that animal is disposed of', async () => {
    const shop = await freshDesk();
    const { held, other } = await groundTogether(shop);
    await shop.call('animals.testResult', { id: held, result: 'positive' });
    await shop.call('animals.dispose', { id: held, what: 'All of it', how: 'Landfill' });
    expect(await shop.problem('animals.setStage', { id: other, stage: 'ready' })).toMatchObject({
      code: 'pooled.positive',
    });
  });

  it('is free where nothing of the held animal went in', async () => {
    const shop = await freshDesk();
    const [one, two] = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Ana' } })];
    for (const id of [one, two]) await cut(shop, id, { trim: '30' });
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id: one }, { id: two }],
      ...BATCH,
    });
    await shop.call('animals.hold', { id: one, reason: 'sample', sample: '7' });
    await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
    await shop.call('grinder.weighIn', { batchId, animalId: two, part: 'trim', typed: '30' });
    await shop.call('animals.setStage', {
      id: two,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
  });
});
