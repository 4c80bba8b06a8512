import { describe, expect, it } from 'vitest';
import { messageTo } from '../../../src/ui/pickup/message.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

const DAY = 24 * 3600;

async function readyElk() {
  const shop = await freshDesk();
  const id = await takeIn(shop);
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  return { shop, id };
}

describe('what waits at Pick-up', () => {
  it('is late after the shop’s own limit, not on its last day', async () => {
    const { shop } = await readyElk();
    const late = async () => (await shop.call('pickup.get', {}))[0];
    shop.wait(14 * DAY);
    expect(await late()).toMatchObject({ readyDays: 14, late: false });
    shop.wait(DAY);
    expect(await late()).toMatchObject({ readyDays: 15, late: true });
    await shop.call('shop.saveSettings', { changes: { pickupLimitDays: 21 } });
    expect(await late()).toMatchObject({ readyDays: 15, late: false });
  });

  it('keeps what came of each call, newest first', async () => {
    const { shop, id } = await readyElk();
    await shop.call('pickup.saveNote', { id, text: 'Left a message', by: 'MK' });
    shop.wait(DAY);
    await shop.call('pickup.saveNote', { id, text: 'Comes on Friday' });
    const [row] = await shop.call('pickup.get', {});
    expect(row?.calls.map(({ text, by }) => [text, by])).toEqual([['Comes on Friday', ''], ['Left a message', 'MK']]); // prettier-ignore
    expect(await shop.problem('pickup.saveNote', { id, text: '  ' })).toMatchObject({
      code: 'text.needed',
      field: 'text',
    });
  });

  it('takes no call about what does not wait there', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    expect(await shop.problem('pickup.saveNote', { id, text: 'Called' })).toMatchObject({
      kind: 'refused',
      code: 'note.not-ready',
    });
  });
});

describe('the message to the hunter', () => {
  const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });
  const animal = {
    ticket: '26-0001', hunter: 'Dana Whitlock', speciesName: 'Elk', packages: 114, grams: 51_664.17, billed: true, dueMinor: 18_558,
    currency: 'USD',
  }; // prettier-ignore
  const shop = { shopName: 'Cold Creek Locker', pickupMessage: 'Open Monday to Saturday, 8 to 6.' };

  it('says what is ready, how much, what is due, and the shop’s own words', () => {
    expect(messageTo(animal, shop, format)).toBe(
      'Hello Dana Whitlock,\n' +
        'Your meat is packed and ready at Cold Creek Locker: Elk, ticket 26-0001, 114 packages, 113.90 lb.\n' +
        'Balance due: $185.58.\n' +
        'Open Monday to Saturday, 8 to 6.',
    );
  });

  it.each([
    [{ dueMinor: 0 }, 'It is paid in full.'],
    [{ dueMinor: -50 }, 'It is paid in full.'],
    [{ billed: false, dueMinor: 0 }, 'Your bill will be ready at the counter.'],
  ])('with %o says %s', (more, said) => {
    expect(
      messageTo({ ...animal, ...more }, { ...shop, pickupMessage: '' }, format)
        .split('\n')
        .at(-1),
    ).toBe(said);
  });
});
