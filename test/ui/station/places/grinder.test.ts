// @vitest-environment happy-dom
/** The Grinder of a station, mounted: planning, weighing in, packing, cleaning. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { BatchPage, GrinderView, PlanPart } from '../../../../src/bridge/contract.ts';
import GrinderPlace from '../../../../src/ui/station/places/grinder/GrinderPlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const LB = 453.59237;
const part = (more: Partial<PlanPart>): PlanPart => ({
  key: 'trim 12', kind: 'trim', ticket: '26-0012', fatName: null, lotCode: null, animalId: 12, fatLotId: null, grams: 40 * LB,
  share: 0.9, fat: 0.05, ...more,
}); // prettier-ignore
const FAT = part({
  key: 'fat 5', kind: 'fat', ticket: null, fatName: 'Beef suet', lotCode: 'F5', animalId: null, fatLotId: 5, grams: 4 * LB, fat: 0.9,
}); // prettier-ignore
const VIEW: GrinderView = {
  waiting: [
    {
      id: 12, ticket: '26-0012', hunter: 'Ana Ruiz', speciesName: 'Elk', trimLeftGrams: 40 * LB, ownFatLeftGrams: 0,
      trimFat: { mean: 0.05, sd: 0.01 }, refusesPooling: false, hold: null,
      wants: [{ product: 'Ground', fat: 'none', targetFat: null, pattyGrams: null, recipe: null, grams: 40 * LB }],
    },
  ],
  open: [
    {
      id: 7, name: 'G26-007', product: 'Ground', tickets: ['26-0012'], state: 'open', targetFat: 0.1, fat: null, inGrams: 0, at: '',
      affectedBy: [],
    },
  ],
  recent: [], fat: [], uncleaned: [], cleanings: [],
}; // prettier-ignore
const BATCH = {
  id: 7, name: 'G26-007', product: 'Ground', state: 'open', targetFat: 0.1, species: ['Elk'], packageGrams: LB, planned: [part({}), FAT],
  weighedIn: [], inGrams: 0, fat: null, fatRange: null, toWeigh: [part({}), FAT], topUp: null, shortFat: null, packages: [], outGrams: 0,
  fatTests: [], passes: [], throughBefore: [], affectedBy: [], owners: [], heldGrind: null,
} as unknown as BatchPage; // prettier-ignore

let station: Awaited<ReturnType<typeof openStation>>;
let view: GrinderView;
let batch: BatchPage;
beforeEach(async () => {
  station = await openStation();
  view = VIEW;
  batch = BATCH;
  desk.answers['grinder.get'] = () => ok(view);
  desk.answers['grinder.getBatch'] = () => ok(batch);
  desk.answers['fat.listLots'] = () => ok([]);
  desk.answers['grinder.plan'] = () =>
    ok({
      kind: 'plan', parts: [part({})], batchGrams: 40 * LB, fat: 0.05, fatRange: { low: 0.04, high: 0.06 }, fatToAddGrams: 0,
      costMinor: 0, leftOut: [],
    }); // prettier-ignore
});

async function grinder() {
  const wrapper = mountPart(GrinderPlace);
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
    async pick(label: string) {
      await wrapper.get(`input[type=radio][aria-label="${label}"]`).trigger('click', { detail: 1 });
      await flushPromises();
    },
    async enter(typed: string) {
      await wrapper.get('.entry input').setValue(typed);
      await wrapper.get('.entry input').trigger('keydown', { key: 'Enter' });
      await flushPromises();
    },
    name: () => wrapper.get('.entry .name').text().replaceAll('\u2060', ''),
  };
}
async function opened() {
  const shown = await grinder();
  await shown.press(/^G26-007/);
  return shown;
}

describe('the Grinder without a batch', () => {
  it('plans what is picked and opens the batch once the desk has started it', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const { wrapper, press } = await grinder();
    await wrapper.get('.waiting input').setValue(true);
    await vi.advanceTimersByTimeAsync(500);
    vi.useRealTimers();
    await flushPromises();
    expect(wrapper.get('.plan').text()).toMatch(/40\.00/);
    desk.answers['grinder.start'] = () => ok({ id: 7, name: 'G26-007' });
    await press(/^Start this batch/);
    expect(desk.calls.find(({ name }) => name === 'grinder.start')?.input).toMatchObject({
      animals: [{ id: 12 }],
      product: 'Ground',
    });
    expect(wrapper.get('h2').text()).toBe('G26-007');
  });

  it('says that a batch needs the desk while it is away', async () => {
    desk.answers['grinder.plan'] = () => ({ ok: false, problem: { kind: 'missing', code: 'station.away' } });
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const { wrapper } = await grinder();
    await wrapper.get('.waiting input').setValue(true);
    await vi.advanceTimersByTimeAsync(500);
    vi.useRealTimers();
    await flushPromises();
    expect(wrapper.get('.plan [role=alert]').text()).toMatch(/out of reach/);
    expect(wrapper.get('.plan').text()).not.toMatch(/Start this batch/);
  });

  it('shows no price of fat, and offers no buying', async () => {
    const { wrapper } = await grinder();
    expect(wrapper.text()).not.toMatch(/\$|Receive fat/);
  });

  it('demands a cleaning after meat on hold, and records it by one press', async () => {
    view = {
      ...VIEW,
      uncleaned: [{ batchId: 6, batch: 'G26-006', held: [{ ticket: '26-0009', positive: false }], since: 1 }],
    };
    const { wrapper, press } = await grinder();
    expect(wrapper.get('.problem').text()).toMatch(/^No cleaning is recorded after G26-006/);
    await press(/^Record cleaning/);
    expect(station.sent()).toMatchObject([{ name: 'grinder.saveCleaning', input: { batchId: null } }]);
    expect(wrapper.get('.problem').text()).toMatch(/not saved yet/);
  });
});

describe('weighing in', () => {
  it('goes on to the fat once the trim is in, though the desk did not answer yet', async () => {
    const { enter, name } = await opened();
    await enter('25');
    expect(name()).toBe('Trim of 26-0012');
    await enter('15');
    expect(name()).toBe('Beef suet, lot F5');
    await enter('4');
    expect(station.sent().map(({ input }) => input)).toMatchObject([
      { batchId: 7, animalId: 12, part: 'trim', typed: '25' },
      { batchId: 7, animalId: 12, part: 'trim', typed: '15' },
      { batchId: 7, fatLotId: 5, part: 'fat added', typed: '4' },
    ]);
  });

  it('subtracts the container', async () => {
    const { pick, enter } = await opened();
    await pick('Container');
    await enter('2');
    await enter('42');
    expect(station.sent()).toMatchObject([{ input: { typed: '42', tareTyped: '2' } }]);
  });

  it('names meat on hold that went through before', async () => {
    batch = {
      ...BATCH,
      throughBefore: [{ batchId: 6, batch: 'G26-006', held: [{ ticket: '26-0009', positive: false }] }],
    };
    const { wrapper } = await opened();
    expect(wrapper.get('.problem').text()).toMatch(/^G26-006 with meat on hold \(26-0009\)/);
  });
});

describe('packing', () => {
  const weighed = { ...BATCH, toWeigh: [], inGrams: 44 * LB, fat: 0.1 } as BatchPage;

  it('counts the packages by their weight, or as typed', async () => {
    batch = weighed;
    const { pick, enter } = await opened();
    await enter('20');
    expect(station.sent().at(-1)).toMatchObject({
      name: 'grinder.pack', input: { batchId: 7, product: 'Ground', typed: '20', count: 20 }, shown: 'G26-007: 20 packages, 20 lb',
    }); // prettier-ignore
    await pick('Packages');
    await enter('11');
    expect(station.sent()).toHaveLength(1);
    await pick('Weight');
    await enter('23');
    expect(station.sent().at(-1)).toMatchObject({ input: { typed: '23', count: 11 } });
  });

  it('asks for the count where no weight of a package is known', async () => {
    batch = { ...weighed, packageGrams: null };
    const { enter, name, wrapper } = await opened();
    await enter('20');
    expect(name()).toBe('Packages');
    expect(wrapper.get('.problem').text()).toMatch(/whole number of packages/);
    expect(station.sent()).toEqual([]);
  });

  it('finishes the batch', async () => {
    batch = weighed;
    const { press } = await opened();
    await press(/^Finish this batch/);
    expect(station.sent()).toMatchObject([
      { name: 'grinder.finish', input: { batchId: 7, confirmed: false } },
    ]);
  });
});

describe('a pass and a test', () => {
  it('records the plate with the temperature of the meat, and refuses what is none', async () => {
    const { wrapper, pick, enter } = await opened();
    await pick('Grind');
    await wrapper.get('.field input').setValue('3/8 in');
    await enter('3..6');
    expect(station.sent()).toEqual([]);
    await enter('36');
    expect(station.sent()).toMatchObject([
      { name: 'grinder.pass', input: { plate: '3/8 in', tempTyped: '36' } },
    ]);
  });

  it('stays where somebody went by hand while the answer to the last weight arrives, and goes on after an entry', async () => {
    const { wrapper, pick, enter } = await opened();
    const step = () => wrapper.get('input[type=radio]:checked').attributes('aria-label');
    await pick('Grind');
    batch = { ...BATCH, toWeigh: [], inGrams: 44 * LB };
    desk.changes();
    await flushPromises();
    expect(step()).toBe('Grind');
    await wrapper.get('.field input').setValue('3/8 in');
    await enter('36');
    batch = BATCH;
    desk.changes();
    await flushPromises();
    expect(step()).toBe('Weigh in');
  });

  it('warns of warm meat with its source', async () => {
    batch = {
      ...BATCH,
      passes: [{ pass: 1, plate: '3/8 in', tempC: 6, at: '2026-11-24T15:00:00Z', by: 'MK' }],
    };
    const { wrapper, pick } = await opened();
    await pick('Grind');
    expect(wrapper.get('.problem').text()).toMatch(/The meat was 43°F/);
  });

  it('records a fat test in percent', async () => {
    const { wrapper, pick, enter } = await opened();
    await pick('Test');
    await wrapper.get('.field input').setValue('meter');
    await enter('9.5');
    expect(station.sent()).toMatchObject([
      { name: 'grinder.fatTest', input: { percent: 9.5, method: 'meter' } },
    ]);
  });
});

it('keeps a half-typed weight while another step is looked at', async () => {
  const { wrapper, pick } = await opened();
  await wrapper.get('.entry input').setValue('12.');
  const first =
    wrapper
      .get<HTMLInputElement>('[role=radiogroup] input:checked, fieldset input:checked')
      .attributes('aria-label') ?? '';
  await pick('Grind');
  expect(wrapper.get<HTMLInputElement>('.entry input').element.value).toBe('');
  await pick(first);
  expect(wrapper.get<HTMLInputElement>('.entry input').element.value).toBe('12.');
  expect(station.line.open.size).toBe(1);
});
