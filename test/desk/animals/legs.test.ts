import { describe, expect, it } from 'vitest';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';
import { freshDesk, inBook, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;
const elk = SPECIES.find(({ code }) => code === 'elk');
const inItsHide = {
  species: 'elk',
  brought: 'whole',
  weights: [{ stage: 'received', typed: '400' }],
} as const;
const intake = (legs?: 'on' | 'off' | 'unknown') => ({
  ...inItsHide,
  weights: [...inItsHide.weights],
  ...(legs && { legs }),
});

describe('the lower legs of a field-dressed animal', () => {
  // The Elk Carcass, B-594R, University of Wyoming, 2003, weighs elk with their lower legs off.
  it('are told at intake, and what is expected of its parts follows the published share that hangs', async () => {
    const shop = await freshDesk();
    const shareOfMeat = async (legs?: 'on' | 'off') => {
      const id = await takeIn(shop, intake(legs), null);
      const page = await shop.call('animals.get', { id });
      expect(page.legs).toBe(legs ?? 'unknown');
      return page.expected.find(({ part }) => part === 'take-home')?.low ?? 0;
    };
    const [on, off, unsaid] = [await shareOfMeat('on'), await shareOfMeat('off'), await shareOfMeat()];
    const { ratios } = elk ?? {};
    const more = (ratios?.legsOff.dressedToHanging.mean ?? 0) / (ratios?.dressedToHanging.mean ?? Number.NaN);
    expect(more).toBeGreaterThan(1.02);
    expect(off / on).toBeCloseTo(more, 6);
    expect(unsaid).toBe(on);
  });

  it('move what the hook is expected to take', async () => {
    const shop = await freshDesk();
    const hangs = async (legs: 'on' | 'off') => {
      const id = await takeIn(shop, intake(legs), null);
      const asked = await shop.problem('table.weigh', {
        animalId: id,
        stage: 'hanging',
        part: 'carcass',
        typed: '215',
      });
      expect(asked).toMatchObject({ code: 'weight.unlikely', with: { part: 'hook' } });
      return (Number(asked.with?.low) + Number(asked.with?.high)) / 2 / LB;
    };
    const [on, off] = [await hangs('on'), await hangs('off')];
    expect(off - on).toBeGreaterThan(8);
  });

  it('are put right in the record, which keeps what was said before', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, intake('on'), null);
    await shop.call('animals.edit', { id, changes: { legs: 'off' }, reason: 'looked again' });
    expect((await shop.call('animals.get', { id })).legs).toBe('off');
    const notes = inBook(shop, (book) =>
      book.db
        .prepare<[string], { before: string; after: string }>(
          "SELECT before, after FROM audit WHERE record = 'animal' AND record_id = ? AND act = 'change'",
        )
        .all(`${id}`),
    );
    expect(notes.map(({ before, after }) => [JSON.parse(before), JSON.parse(after)])).toEqual([
      [{ legs: 'on' }, { legs: 'off' }],
    ]);
  });

  it('are nobody’s concern of an animal that came skinned', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { legs: 'off' }, null);
    expect((await shop.call('animals.get', { id })).legs).toBe('unknown');
    expect(
      await shop.problem('animals.edit', { id, changes: { legs: 'off' }, reason: 'meant another' }),
    ).toMatchObject({ code: 'edit.nothing' });
  });
});
