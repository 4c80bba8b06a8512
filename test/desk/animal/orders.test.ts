import { describe, expect, it } from 'vitest';
import type { Instructions } from '../../../src/bridge/contract.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

const ORDERS: Instructions = {
  cutsShare: 0.1,
  primals: [
    { primal: 'haunch', as: 'steaks', size: '¾ in' },
    { primal: 'neck', as: 'grind', size: '' },
  ],
  fat: 'none',
  targetFat: null,
  grindProduct: 'Ground',
  pattyGrams: null,
  alsoGround: [],
  packageGrams: 453.59237,
  pricedExtras: {},
  extras: [],
  note: '',
};

describe('orders by primal', () => {
  it('set the share kept whole themselves, whatever was said', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { instructions: ORDERS });
    // Haunch of the elk profile.
    expect((await shop.call('animals.get', { id })).instructions.cutsShare).toBeCloseTo(0.3913, 6);
    await shop.call('animals.saveOrders', { id, instructions: { ...ORDERS, primals: [] } });
    expect((await shop.call('animals.get', { id })).instructions.cutsShare).toBe(0.1);
  });

  it('count only what was brought', async () => {
    const shop = await freshDesk();
    const parts = [
      { primal: 'haunch', count: 1 },
      { primal: 'shoulder', count: 2 },
    ];
    const id = await takeIn(shop, { brought: 'primals', parts, instructions: ORDERS }, null);
    const { instructions } = await shop.call('animals.get', { id });
    expect(instructions.cutsShare).toBeCloseTo(0.19565 / (0.19565 + 0.1768), 6);
    expect(instructions.primals).toEqual(ORDERS.primals);
  });

  it('are refused for a primal that the species does not have', async () => {
    const shop = await freshDesk();
    const instructions: Instructions = { ...ORDERS, primals: [{ primal: 'ham', as: 'roasts', size: '' }] };
    const id = await takeIn(shop);
    const refused = { kind: 'invalid', code: 'primal.unknown', with: { primal: 'ham' } };
    expect(await shop.problem('animals.saveOrders', { id, instructions })).toMatchObject(refused);
    expect(
      await shop.problem('intake.takeIn', {
        hunter: { name: 'Ana' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', instructions,
      }),
    ).toMatchObject(refused); // prettier-ignore
    expect((await shop.call('rail.get', {})).hooks).toHaveLength(1);
  });
});

describe('last orders of a hunter', () => {
  const hunterOf = async (shop: Awaited<ReturnType<typeof freshDesk>>) =>
    (await shop.call('hunters.find', { text: 'Dana' }))[0]!.id;

  it('are none before the first animal with instructions', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    expect(
      await shop.call('animals.getLastOrders', { hunterId: await hunterOf(shop), species: 'elk' }),
    ).toBeNull();
  });

  it('come from the same species first, then from the same build of body, then from any', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { instructions: { ...ORDERS, note: 'first elk' } });
    const hunter = { id: await hunterOf(shop) };
    await takeIn(shop, { hunter, instructions: { ...ORDERS, note: 'second elk' } });
    await takeIn(shop, { hunter, species: 'moose', instructions: { ...ORDERS, note: 'moose' } });
    const last = (species: string) => shop.call('animals.getLastOrders', { hunterId: hunter.id, species });
    expect(await last('elk')).toMatchObject({
      ticket: '26-0002', sameSpecies: true, speciesName: 'Elk', receivedOn: '2026-10-10', instructions: { note: 'second elk', primals: ORDERS.primals },
    }); // prettier-ignore
    expect(await last('white-tail')).toMatchObject({
      sameSpecies: false, instructions: { note: 'moose', primals: ORDERS.primals },
    }); // prettier-ignore
    // A bear has no haunch: how it is ground and packed comes along, its primals do not.
    expect(await last('black-bear')).toMatchObject({
      sameSpecies: false, instructions: { note: 'moose', primals: [] },
    }); // prettier-ignore
  });
});
