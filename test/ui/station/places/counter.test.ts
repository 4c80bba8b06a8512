// @vitest-environment happy-dom
/** The Counter of a station, mounted: an intake goes to the outbox, and nothing typed is lost. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import type { SpeciesCard } from '../../../../src/bridge/contract.ts';
import CounterPlace from '../../../../src/ui/station/places/counter/CounterPlace.vue';
import { mountPart } from '../../mount-part.ts';
import { desk, ok } from '../../played-desk.ts';
import { openStation } from '../station-window.ts';

vi.mock('../../../../src/bridge/client/index.ts', async () => (await import('../../played-desk.ts')).client);
vi.mock('../../../../src/ui/station/kept/entries.ts', async () => (await import('../kept-entries.ts')).kept);

const DEER = {
  code: 'mule-deer', name: 'Mule deer', many: 'mule deer', body: 'deer', words: { male: 'Buck', female: 'Doe', young: 'Fawn' },
  primals: [], cookTo: { f: 165, c: 74, source: '' }, cautions: [], own: false,
} as unknown as SpeciesCard; // prettier-ignore

let station: Awaited<ReturnType<typeof openStation>>;
beforeEach(async () => {
  station = await openStation({ species: [DEER], templates: [], fatSources: [] });
  station.line.connection = { state: 'connected' };
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['hunters.find'] = () => ok([]);
  desk.answers['drafts.list'] = () => ok([]);
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['animals.get'] = () => ok({ id: 31, ticket: '26-0031' });
});

async function counter() {
  const wrapper = mountPart(CounterPlace);
  await flushPromises();
  const pick = async (label: string): Promise<void> => {
    await wrapper.get(`input[type=radio][aria-label="${label}"]`).trigger('click', { detail: 1 });
    await flushPromises();
  };
  const press = async (name: RegExp): Promise<void> => {
    await wrapper
      .findAll('button')
      .find((one) => name.test(one.text()))!
      .trigger('click');
    await flushPromises();
  };
  return {
    wrapper,
    pick,
    press,
    hunterField: () => wrapper.get<HTMLInputElement>('input[role=combobox]'),
    async fill() {
      await wrapper.get('input[role=combobox]').setValue('Ana Ruiz');
      await pick('Mule deer');
      await pick('Buck');
      await pick('Skinned');
      await wrapper.get('.entry input').setValue('96');
      await flushPromises();
    },
  };
}

it('checks an animal in with its weight, and shows the ticket once the desk has answered', async () => {
  const { fill, press, wrapper } = await counter();
  await fill();
  await press(/^Check in/);
  expect(station.sent()).toMatchObject([
    {
      name: 'intake.takeIn',
      input: {
        hunter: { name: 'Ana Ruiz' },
        species: 'mule-deer',
        sex: 'male',
        brought: 'skinned',
        weights: [{ stage: 'received', typed: '96' }],
        receivedOn: null,
      },
      shown: 'Ana Ruiz: Check in, Mule deer',
    },
  ]);
  expect(wrapper.text()).toMatch(/write the hunter’s name on the tag/);
  await station.answer({ state: 'saved', answer: { id: 31 } });
  expect(wrapper.get('.figure').text()).toBe('26-0031');
  await press(/^Next animal/);
  expect(wrapper.get<HTMLInputElement>('input[role=combobox]').element.value).toBe('');
});

it('says what is missing, and sends nothing', async () => {
  const { press, wrapper } = await counter();
  await press(/^Check in/);
  expect(wrapper.text()).toMatch(/Nothing is lost. Fix the marked fields/);
  expect(station.sent()).toEqual([]);
});

it('says at once which weight it cannot read', async () => {
  const { fill, press, wrapper } = await counter();
  await fill();
  await wrapper.get('.entry input').setValue('9..6');
  await press(/^Check in/);
  expect(wrapper.get('.entry [role=alert]').text()).not.toBe('');
  expect(station.sent()).toEqual([]);
});

it('dates what is sent later to today', async () => {
  station.line.connection = { state: 'away', since: null };
  const { fill, press } = await counter();
  await fill();
  await press(/^Check in/);
  expect(station.sent()).toMatchObject([{ input: { receivedOn: '2026-11-24' } }]);
});

it('keeps the form when the desk doubts it, and sends the corrected one in its place', async () => {
  const { fill, press, wrapper, hunterField } = await counter();
  await fill();
  await press(/^Check in/);
  const problem = {
    kind: 'conflict' as const,
    code: 'weight.unlikely',
    with: { grams: 43_545, part: 'carcass', low: 1, high: 2 },
  };
  await station.answer({ state: 'asks', problem });
  expect(hunterField().element.value).toBe('Ana Ruiz');
  await wrapper.get('.entry input').setValue('69');
  await press(/^Check in/);
  expect(station.sent().at(-1)).toMatchObject({ input: { weights: [{ typed: '69' }] } });
  expect(station.line.entries[0]?.outcome.state).toBe('replaced');
  expect(station.line.unanswered).toEqual([]);
});

it('confirms a doubted weight by yes', async () => {
  const { fill, press, wrapper } = await counter();
  await fill();
  await press(/^Check in/);
  const problem = {
    kind: 'conflict' as const,
    code: 'weight.unlikely',
    with: { grams: 43_545, part: 'carcass', low: 1, high: 2 },
  };
  await station.answer({ state: 'asks', problem });
  await press(/^Yes, that’s right/);
  expect(station.sent().at(-1)).toMatchObject({ input: { confirmed: ['weight.unlikely'] } });
  await station.answer({ state: 'saved', answer: { id: 31 } });
  expect(wrapper.get('.figure').text()).toBe('26-0031');
});

it('weighs an animal that has no ticket yet, under the station’s own name for it', async () => {
  station.line.connection = { state: 'away', since: null };
  const { fill, press, wrapper } = await counter();
  await fill();
  await press(/^Check in$/);
  expect(wrapper.text()).toContain('Ana Ruiz’s animal is saved on this device.');
  await press(/Next/);
  expect(wrapper.text()).toContain('Saved here, without a ticket yet');
  await press(/^Ana Ruiz$/);
  await wrapper.get('.entry input').setValue('12x');
  await press(/^Save weight$/);
  expect(wrapper.find('[role=alert]').exists()).toBe(true);
  await wrapper.get('.entry input').setValue('88.5');
  await press(/^Save weight$/);
  const [intake, weight] = station.line.entries;
  expect(intake?.makes).toMatch(/^[\da-f-]{36}$/);
  expect(weight).toMatchObject({
    name: 'table.weigh',
    input: { animalId: { made: intake?.makes }, stage: 'hanging', part: 'carcass', typed: '88.5' },
  });
  expect(wrapper.text()).toContain('88.5 lb');
});
