// @vitest-environment happy-dom
/** Pickup at a station, mounted: finding, the shelf, handing over only after the desk's answer. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { CallOutput } from '../../../../src/bridge/contract.ts';
import PickupPlace from '../../../../src/ui/station/places/pickup/PickupPlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

type Ready = CallOutput<'pickup.get'>[number];
const ELK = {
  id: 12, ticket: '26-0012', hunter: 'Ana Ruiz', phone: '', speciesName: 'Elk', readyDays: 2, late: false, calls: [], hold: null,
  waitsFor: [], doubts: null, answered: null, packages: 34, grams: 40_000, billed: true, number: null, dueMinor: 0, currency: '',
  handedBefore: null, belongings: [], notices: [], noticeDue: null, unprocessed: false, shares: [], places: ['Freezer 2, A4'],
} as unknown as Ready; // prettier-ignore
const OTHER = { ...ELK, id: 13, ticket: '26-0013', hunter: 'Boyd Oberg', places: [] } as Ready;

let station: Awaited<ReturnType<typeof openStation>>;
let rows: Ready[];
beforeEach(async () => {
  station = await openStation();
  station.line.connection = { state: 'connected' };
  rows = [ELK, OTHER];
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['pickup.get'] = () => ok(rows);
});

async function pickup() {
  const wrapper = mountPart(PickupPlace);
  await flushPromises();
  return {
    wrapper,
    async find(text: string) {
      await wrapper.get('input[type=search]').setValue(text);
      await flushPromises();
    },
    async handOver() {
      await wrapper.get('.sheet form').trigger('submit');
      await flushPromises();
    },
    sheet: () => wrapper.get('.sheet').text(),
  };
}

it('finds by a part of the name or by a ticket, and says where the packages lie', async () => {
  const { find, sheet, wrapper } = await pickup();
  expect(wrapper.findAll('.tile')).toHaveLength(2);
  await find('ruiz');
  expect(sheet()).toMatch(/Freezer 2, A4\s*34 packages/);
  await find('13');
  expect(sheet()).toMatch(/No shelf recorded.*Boyd Oberg/s);
});

it('hands over, and says so only after the desk has answered', async () => {
  const { find, handOver, sheet } = await pickup();
  await find('ruiz');
  await handOver();
  expect(station.sent()).toMatchObject([
    { name: 'pickup.release', input: { id: 12, to: 'Ana Ruiz', belongings: [] } },
  ]);
  expect(sheet()).toMatch(/Do not hand anything over yet/);
  await station.answer({ state: 'saved', answer: { id: 12 } });
  expect(sheet()).toMatch(/26-0012 was handed to Ana Ruiz/);
  // It has left the list of what waits, and is still shown.
  rows = [OTHER];
  desk.changes();
  await flushPromises();
  expect(sheet()).toMatch(/26-0012 was handed to Ana Ruiz/);
});

it('hands nothing over while the desk is away', async () => {
  station.line.connection = { state: 'away', since: null };
  const { find, wrapper, sheet } = await pickup();
  await find('ruiz');
  expect(wrapper.find('.sheet form').exists()).toBe(false);
  expect(sheet()).toMatch(/Do not hand anything over until it is connected again/);
});

it('hands nothing over that is on hold, or was ground with meat on hold', async () => {
  rows = [
    { ...ELK, hold: 'sample' },
    {
      ...OTHER,
      waitsFor: [{ batch: 'G26-007', ticket: '26-0009', positive: false, from: null }],
    } as unknown as Ready,
  ];
  const { find, wrapper, sheet } = await pickup();
  for (const [name, why] of [
    ['ruiz', /Sample pending. It stays here/],
    ['oberg', /Ground in G26-007 with 26-0009/],
  ] as const) {
    await find(name);
    expect(sheet()).toMatch(why);
    expect(wrapper.find('.sheet form').exists()).toBe(false);
  }
});

it('asks for initials where it is not paid, and shows no sum', async () => {
  const { find, handOver, wrapper } = await pickup();
  await find('ruiz');
  await handOver();
  await station.answer({
    state: 'refused',
    problem: { kind: 'refused', code: 'release.unpaid-floor', with: { ticket: '26-0012' } },
  });
  const ask = wrapper.get('.ask-card');
  expect(ask.text()).toMatch(/not paid yet/);
  expect(wrapper.text()).not.toMatch(/\$/);
  await ask.get('input').setValue('MK');
  await ask
    .findAll('button')
    .find((one) => one.text() === 'Hand over anyway')!
    .trigger('click');
  await flushPromises();
  expect(station.sent().at(-1)).toMatchObject({ name: 'pickup.release', input: { id: 12, unpaidBy: 'MK' } });
});

it('hands over what belongs to it, and asks about what stays', async () => {
  rows = [{ ...ELK, belongings: [{ id: 4, kind: 'cape', tag: '7', place: '' }] } as unknown as Ready];
  const { find, handOver, wrapper } = await pickup();
  await find('ruiz');
  await handOver();
  await station.answer({
    state: 'asks',
    problem: { kind: 'conflict', code: 'release.belongings', with: { ticket: '26-0012', kinds: 'Cape' } },
  });
  await wrapper
    .get('.ask-card')
    .findAll('button')
    .find((one) => one.text() === 'Yes, it stays here')!
    .trigger('click');
  await flushPromises();
  expect(station.sent().at(-1)).toMatchObject({ input: { confirmed: ['release.belongings'] } });
});

describe('a shared animal', () => {
  it('goes to one of its hunters at a time', async () => {
    const sharer = (hunterId: number, name: string) => ({
      hunterId, name, phone: '', share: 0.5, rows: [{ product: 'Ground', batch: null, count: 17, grams: 20_000 }], taken: null,
    }); // prettier-ignore
    rows = [{ ...ELK, shares: [sharer(1, 'Ana Ruiz'), sharer(2, 'Kim Lee')] } as unknown as Ready];
    const { find, handOver, wrapper, sheet } = await pickup();
    await find('ruiz');
    await wrapper.get('input[type=radio][aria-label="Hand over to Kim Lee"]').trigger('click', { detail: 1 });
    expect(sheet()).toMatch(/17 packages Ground/);
    await handOver();
    expect(station.sent()).toMatchObject([
      { name: 'shares.release', input: { id: 12, hunterId: 2, to: 'Kim Lee' } },
    ]);
  });
});
