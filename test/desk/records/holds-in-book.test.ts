/** The record book names holds, results and disposals, and counts what was ground; an imported file is looked through for doubles. */
import { describe, expect, it } from 'vitest';
import { previewTable } from '../import/import-file.ts';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

describe('the record book', () => {
  it('has holds, results, whom a positive one reaches, disposals and ground packages', async () => {
    const shop = await freshDesk();
    const positive = await takeIn(shop);
    const other = await takeIn(shop, { hunter: { name: 'Ana' } });
    for (const id of [positive, other]) await cut(shop, id, { trim: '30' });
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id: positive }, { id: other }], fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    for (const [animalId, typed] of [
      [positive, '30'],
      [other, '15'],
    ] as const)
      await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed });
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 45, typed: '45' });
    await shop.call('animals.hold', { id: positive, reason: 'sample', sample: 'L7' });
    await shop.call('animals.testResult', {
      id: positive,
      result: 'positive',
      lab: 'State lab',
      on: '2026-10-10',
    });
    await shop.call('animals.dispose', { id: positive, what: 'All of it', how: 'Landfill' });
    const [first, second] = await shop.call('records.list', { from: '2026-10-10', to: '2026-10-10' });
    expect(first).toMatchObject({
      hold: 'positive',
      results: [{ result: 'positive', sample: 'L7', lab: 'State lab', on: '2026-10-10' }],
      affectedBy: [],
      disposedWhat: 'All of it',
      groundPackages: 30,
    });
    expect(second).toMatchObject({ hold: null, results: [], affectedBy: ['26-0001'], groundPackages: 15 });
    expect((second?.groundGrams ?? 0) / 453.59237).toBeCloseTo(15, 6);
  });
});

describe('an imported file', () => {
  const HEAD = 'Ticket,Name,Species,Sex,Brought,Received,Tag,Hanging weight lb\n';

  it('is doubted where a row repeats an old number, or tag and day, of an earlier one', async () => {
    const shop = await freshDesk();
    const rows = [
      '101,Dana,Elk,male,skinned,2025-10-01,T-1,300',
      '101,Ana,Elk,male,skinned,2025-10-02,T-2,310',
      '103,Ben,Elk,male,skinned,2025-10-02,T-2,320',
      '104,Cy,Elk,male,skinned,2025-10-03,,330',
      '105,Dot,Elk,male,skinned,2025-10-03,,340',
    ];
    const view = await previewTable(shop, 'animals', HEAD + rows.join('\n'));
    const twice = view.doubts.filter(({ problem }) => problem.code === 'sheet.twice');
    expect(twice.map(({ row, field, problem }) => [row, field, problem.with?.before])).toEqual([
      [3, 'oldNumber', 2],
      [4, 'tag', 3],
    ]);
  });
});
