// @vitest-environment happy-dom
/** The Smokehouse of a station, mounted: readings with their moments, the sheet ticked off, weights of a batch. */
import { flushPromises } from '@vue/test-utils';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { LoadPage, LoadsView, MadePage } from '../../../../src/bridge/contract.ts';
import SmokehousePlace from '../../../../src/ui/station/places/smokehouse/SmokehousePlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const SAUSAGE = {
  id: 4, name: 'M26-004', product: 'Summer sausage', tickets: ['26-0012'], state: 'stuffed', finish: 'cooked', stuffedGrams: 20_000,
  proof: { loads: [] }, hosts: [], packs: [], sheet: null, cookTo: { f: 160, c: 71, source: { source: 'a' } },
} as unknown as MadePage; // prettier-ignore
const LOAD = {
  id: 9, name: 'L26-009', oven: 'Big', state: 'open', batches: [{ loadBatchId: 1, madeId: 5, name: 'M26-005', product: 'Jerky' }],
  lastF: 140, lastAt: '2026-11-24T15:00:00Z', verdict: null, now: null, curves: [], logs: [], hosts: [], doneAt: null,
  target: { rows: [{ f: 158, seconds: 0 }], atOnceF: 158, hostF: null, cooling: { stages: [] }, source: { source: 'A table' } },
} as unknown as LoadPage; // prettier-ignore

let station: Awaited<ReturnType<typeof openStation>>;
let loads: LoadsView;
let made: MadePage;
beforeEach(async () => {
  station = await openStation();
  station.line.connection = { state: 'connected' };
  loads = { open: [LOAD], recent: [], waiting: [SAUSAGE], ovens: ['Big', 'Small'] };
  made = SAUSAGE;
  desk.answers['loads.list'] = () => ok(loads);
  desk.answers['made.list'] = () => ok({ open: [made], recent: [], grinds: [] });
  desk.answers['loads.get'] = () => ok(LOAD);
  desk.answers['made.get'] = () => ok(made);
});
afterEach(() => vi.useRealTimers());

async function smokehouse() {
  const wrapper = mountPart(SmokehousePlace);
  await flushPromises();
  return {
    wrapper,
    async press(name: RegExp) {
      await wrapper
        .findAll('button')
        .find((one) => name.test(one.text()))!
        .trigger('click');
      await flushPromises();
    },
    async enter(typed: string) {
      await wrapper.get('.entry input').setValue(typed);
      await wrapper.get('.entry input').trigger('keydown', { key: 'Enter' });
      await flushPromises();
    },
  };
}

describe('loads', () => {
  it('opens a load of what is picked, in one of the smokehouses', async () => {
    const { wrapper, press } = await smokehouse();
    await wrapper.get('.ready input[type=checkbox]').setValue(true);
    await press(/^Small$/);
    await wrapper.get('.ready form').trigger('submit');
    await flushPromises();
    expect(station.sent()).toMatchObject([
      { name: 'loads.open', input: { oven: 'Small', madeIds: [4] }, shown: 'Open load: Small, M26-004' },
    ]);
  });

  it('takes a reading now, by the desk’s clock', async () => {
    const { press, enter, wrapper } = await smokehouse();
    await press(/L26-009/);
    expect(wrapper.text()).toMatch(/158°F: no time needed.*A table/s);
    await enter('152.5');
    expect(station.sent()).toMatchObject([
      {
        name: 'loads.reading',
        input: { id: 9, probe: '1', phase: 'cook', degrees: 'F', typed: '152.5', earlier: null },
      },
    ]);
    expect(wrapper.text()).toMatch(/Probe 1: 152\.5°F\s*not saved yet/);
  });

  it('gives a reading the minute of the shop’s clock while the desk is away', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-24T21:31:40Z') });
    station.line.connection = { state: 'away', since: null };
    // The tablet's clock is two minutes ahead of the desk's.
    station.line.pairing = { aheadMs: 120_000 } as NonNullable<typeof station.line.pairing>;
    const { press, enter } = await smokehouse();
    await press(/L26-009/);
    await enter('150');
    expect(station.sent()).toMatchObject([{ input: { earlier: { on: '2026-11-24', time: '14:29' } } }]);
  });

  it('says at once what is no temperature', async () => {
    const { press, enter, wrapper } = await smokehouse();
    await press(/L26-009/);
    await enter('1.5.2');
    expect(wrapper.get('.entry [role=alert]').text()).toMatch(/temperature/);
    expect(station.sent()).toEqual([]);
  });
});

describe('a batch', () => {
  const amount = (ingredientId: number, name: string, role: string, more: object = {}) => ({
    ingredientId, name, role, grams: 100 * ingredientId, done: false, lastLot: '', tooFine: false, weighedGrams: 0, ...more,
  }); // prettier-ignore
  const sheet = { amounts: [amount(2, 'Cure #1', 'cure'), amount(1, 'Salt', 'salt')] };

  async function opened() {
    loads = { ...loads, waiting: [] };
    const shown = await smokehouse();
    await shown.press(/M26-004/);
    return shown;
  }

  it('is weighed out ingredient by ingredient, the cure last and with its lot', async () => {
    made = { ...SAUSAGE, state: 'started', sheet } as unknown as MadePage;
    const { enter, wrapper } = await opened();
    expect(wrapper.get('.entry .name').text()).toBe('Salt');
    await enter('100');
    expect(wrapper.get('.entry .name').text()).toBe('Cure #1');
    await enter('200');
    expect(wrapper.get('.entry [role=alert]').text()).toMatch(/lot/);
    await wrapper.get('.field input').setValue('L7');
    await enter('200');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { id: 4, ingredientId: 1, typed: '100' },
      { id: 4, ingredientId: 2, typed: '200', lot: 'L7' },
    ]);
  });

  it('is weighed stuffed once the sheet is ticked off', async () => {
    const done = sheet.amounts.map((one) => ({ ...one, done: true }));
    made = { ...SAUSAGE, state: 'started', sheet: { amounts: done } } as unknown as MadePage;
    const { enter, wrapper } = await opened();
    expect(wrapper.get('.entry .name').text()).toBe('Stuffed weight');
    await enter('44');
    expect(station.sent()).toMatchObject([
      { name: 'made.stage', input: { id: 4, stage: 'stuffed', typed: '44', pieces: null } },
    ]);
  });

  it('is packed with a count', async () => {
    made = { ...SAUSAGE, state: 'cooked' } as unknown as MadePage;
    const { enter, wrapper } = await opened();
    await enter('38');
    expect(wrapper.get('.entry [role=alert]').text()).toMatch(/whole number of packages/);
    await enter('20');
    expect(station.sent()).toMatchObject([{ name: 'made.pack', input: { id: 4, typed: '38', count: 20 } }]);
  });

  it('names the animal in it whose meat must be cooked through', async () => {
    made = { ...SAUSAGE, state: 'cooked', hosts: ['Black bear'] } as unknown as MadePage;
    const { wrapper } = await opened();
    expect(wrapper.get('.problem').text()).toMatch(/^Black bear in this batch: curing, smoking and freezing/);
  });
});
