import { describe, expect, it } from 'vitest';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { importTable, previewTable } from './import-file.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
const HEAD = 'Old number,Part,Weight,Note';
const format = makeFormat({ unit: 'lb', step: 0.5, locale: 'en-US', currency: 'USD' });

/** A shop that has the animal A7 of an earlier season, without weights. */
async function shopWith(brought: 'skinned' | 'quarters' | 'whole'): Promise<FreshDesk> {
  const shop = await freshDesk();
  const animal = 'No,Date,Hunter,Species,Sex\nA7,2023-11-04,Dana,elk,bull';
  await importTable(shop, 'animals', animal, { always: { brought } });
  return shop;
}
const lookAtRows = (shop: FreshDesk, ...rows: string[]) =>
  previewTable(shop, 'weighings', [HEAD, ...rows].join('\n'));

describe('two hanging weights of one animal in a file', () => {
  it('are asked about, because they would add up, and come in once somebody says so', async () => {
    const shop = await shopWith('skinned');
    const look = await lookAtRows(shop, 'A7,hanging,310,', 'A7,trim,80,', 'A7,hanging,301,');
    expect(look.problems).toEqual([]);
    expect(look.doubts).toMatchObject([
      {
        row: 4,
        field: 'weight',
        problem: {
          code: 'sheet.hung-again',
          with: { ticket: 'A7', count: 1, grams: expect.closeTo(310 * LB, 3) },
        },
      },
    ]);
    expect(problemMessage(look.doubts[0]?.problem ?? { kind: 'invalid', code: '' }, format)).toBe(
      'A7 already has a hanging weight of 310.0 lb, and this one would be added to it. That is right for a second side or primal; if the same carcass was weighed again, remove one of the two.',
    );
    const asked = { upload: look.upload, kind: 'weighings', layout: look.layout } as const;
    expect(await shop.problem('import.run', asked)).toMatchObject({
      kind: 'conflict',
      code: 'sheet.doubts',
    });
    await shop.call('import.run', { ...asked, confirmed: true });
    expect((await shop.call('animals.get', { ticket: '23-0001' })).weights.hangingGrams).toBeCloseTo(
      611 * LB,
      3,
    );
  });

  it('are asked about where the first is in the book, under whatever number', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { species: 'white-tail' }, '70');
    expect((await lookAtRows(shop, '26-0001,hanging,66,')).doubts).toMatchObject([
      { row: 2, problem: { code: 'sheet.hung-again' } },
    ]);
    const old = await shopWith('skinned');
    expect((await lookAtRows(old, 'A7,hanging,310,', '23-0001,hanging,301,')).doubts).toMatchObject([
      { row: 3, problem: { with: { ticket: '23-0001', count: 1 } } },
    ]);
  });

  it('say how many there were once there are more', async () => {
    const shop = await shopWith('whole');
    const { doubts } = await lookAtRows(shop, 'A7,hanging,310,', 'A7,hanging,305,', 'A7,hanging,301,');
    expect(doubts.map(({ row }) => row)).toEqual([3, 4]);
    expect(problemMessage(doubts[1]?.problem ?? { kind: 'invalid', code: '' }, format)).toContain(
      '2 hanging weights, 615.0 lb in all',
    );
  });

  it('are sides where the notes of both say so, and a part may weigh more than one of them', async () => {
    const shop = await shopWith('skinned');
    const rows = ['A7,hanging,152.5,left side', 'A7,hanging,149,right side'];
    const look = await lookAtRows(shop, ...rows, 'A7,trim,160,');
    expect([look.problems, look.doubts]).toEqual([[], []]);
    const half = await lookAtRows(shop, 'A7,hanging,310,', 'A7,hanging,149,right side');
    expect(half.doubts).toMatchObject([{ row: 3, problem: { code: 'sheet.hung-again' } }]);
  });

  it('are pieces of an animal that came in quarters, as many as came in', async () => {
    const shop = await shopWith('quarters');
    const four = ['A7,hanging,62,', 'A7,hanging,61,', 'A7,hanging,48,', 'A7,hanging,47,'];
    expect((await lookAtRows(shop, ...four)).doubts).toEqual([]);
    const here = await freshDesk();
    const parts = [{ primal: 'haunch', count: 2 }];
    await takeIn(here, { brought: 'primals', parts }, null);
    const three = ['26-0001,hanging,62,', '26-0001,hanging,61,', '26-0001,hanging,60,'];
    expect((await lookAtRows(here, ...three)).doubts.map(({ row }) => row)).toEqual([4]);
  });
});
