// @vitest-environment happy-dom
/** Hunters' own check-ins at the Counter, mounted: a press fills the form in, and each becomes one ticket. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import type { CallOutput, SpeciesCard } from '../../../../src/bridge/contract.ts';
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
const ROSA = {
  id: 7, at: '2026-11-24T15:00:00.000Z', language: 'es-MX', name: 'Rosa Vega', phone: '307 555 0142', licence: 'WY-77', tag: 'T-4711',
  species: 'mule-deer', sex: 'female', killDate: '2026-11-23', killArea: 'Area 7', instructions: null, known: null, signed: true, slip: null, byPhone: false,
} satisfies CallOutput<'drafts.list'>[number]; // prettier-ignore

const SIGNED = {
  name: 'Rosa Vega', terms: 'Recoja en 5 días.', language: 'es-MX', since: '2026-09-01', signature: 'M1,1L2,2', on: '2026-11-24',
} satisfies CallOutput<'drafts.getSigned'>; // prettier-ignore

let station: Awaited<ReturnType<typeof openStation>>;
let drafts: CallOutput<'drafts.list'>;
beforeEach(async () => {
  station = await openStation({ species: [DEER], templates: [], fatSources: [] });
  station.line.connection = { state: 'connected' };
  drafts = [ROSA, { ...ROSA, id: 8, name: 'Bo Rask', tag: '' }];
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['hunters.find'] = () => ok([]);
  desk.answers['drafts.list'] = () => ok(drafts);
  desk.answers['drafts.getSigned'] = () => ok(SIGNED);
  desk.answers['photos.list'] = () => ok([]);
  desk.answers['animals.get'] = () => ok({ id: 31, ticket: '26-0031' });
});

async function counter() {
  const wrapper = mountPart(CounterPlace);
  await flushPromises();
  const button = (name: RegExp) => wrapper.findAll('button').find((one) => name.test(one.text()));
  return {
    wrapper,
    button,
    async press(name: RegExp) {
      await button(name)!.trigger('click');
      await flushPromises();
    },
    async weigh() {
      await wrapper.get('input[type=radio][aria-label="Skinned"]').trigger('click', { detail: 1 });
      await wrapper.get('.entry input').setValue('96');
      await flushPromises();
    },
  };
}

it('become a ticket with what the hunter typed, and leave the list at once', async () => {
  const { press, weigh, button, wrapper } = await counter();
  await press(/^Rosa Vega, Mule deer · Tag T-4711/);
  expect(wrapper.get('.tag').text()).toBe('Tag T-4711');
  expect(wrapper.get('[lang=es-MX]').text()).toBe(SIGNED.terms);
  expect(wrapper.get('.signed path').attributes('d')).toBe(SIGNED.signature);
  expect(button(/^Bo Rask/)).toBeUndefined();
  await weigh();
  await press(/^Check in$/);
  expect(station.sent()).toMatchObject([
    {
      name: 'intake.takeIn',
      input: {
        draftId: 7,
        hunter: { name: 'Rosa Vega', phone: '307 555 0142', licence: 'WY-77', language: 'es-MX' },
        species: 'mule-deer', sex: 'female', licence: 'WY-77', tag: 'T-4711', killDate: '2026-11-23', killArea: 'Area 7',
        weights: [{ stage: 'received', typed: '96' }],
      },
    },
  ]); // prettier-ignore
  await press(/^Next animal/);
  expect(button(/^Rosa Vega/)).toBeUndefined();
  expect(button(/^Bo Rask, Mule deer · No tag number entered/)).toBeDefined();
});

it('carry nothing into the next animal', async () => {
  const { press, weigh, wrapper } = await counter();
  await press(/^Rosa Vega/);
  await press(/^Back to the list/);
  await wrapper.get('input[role=combobox]').setValue('Ana Ruiz');
  for (const label of ['Mule deer', 'Buck'])
    await wrapper.get(`input[type=radio][aria-label="${label}"]`).trigger('click', { detail: 1 });
  await weigh();
  await press(/^Check in$/);
  const input = station.sent()[0]?.input;
  expect(input).toMatchObject({ hunter: { name: 'Ana Ruiz', phone: '' }, tag: '', licence: '' });
  expect(input).not.toHaveProperty('draftId');
});

it('know who came before, and the cuts that were chosen', async () => {
  const known = {
    id: 3, name: 'Rosa Vega', phone: '', email: '', address: '', licence: '', language: 'es-MX' as const, animals: 2,
    refusesPooling: false, lastTicket: '25-0009',
  }; // prettier-ignore
  const instructions = {
    standard: true, cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null,
    alsoGround: [], packageGrams: 453.59237, pricedExtras: {}, extras: [], note: 'thick',
  }; // prettier-ignore
  drafts = [{ ...ROSA, known, instructions }];
  desk.answers['animals.getLastOrders'] = () => ok(null);
  const { press, weigh } = await counter();
  await press(/^Rosa Vega/);
  await weigh();
  await press(/^Check in$/);
  expect(station.sent()).toMatchObject([
    { input: { hunter: { id: 3 }, licence: 'WY-77', instructions: { note: 'thick', cutsShare: 0.4 } } },
  ]);
});

it('are put aside with a reason, and put back', async () => {
  const { press, button } = await counter();
  await press(/^Rosa Vega/);
  await press(/^Set aside/);
  const left = [...document.querySelectorAll('button')].find((one) => /Hunter left/.test(one.textContent));
  left?.click();
  await flushPromises();
  expect(station.sent()).toMatchObject([{ name: 'drafts.dismiss', input: { id: 7, reason: 'Hunter left' } }]);
  expect(button(/^Rosa Vega/)).toBeUndefined();
  await press(/^Undo/);
  expect(station.sent().at(-1)).toMatchObject({ name: 'drafts.restore', input: { id: 7 } });
});

it('are found by the number of a slip, which a blank one gives to the animal', async () => {
  const { wrapper, press, weigh, button } = await counter();
  desk.answers['slips.find'] = () => ok({ code: '483-201-957', draft: null, ticket: '26-0012' });
  const type = async () => {
    const label = wrapper.findAll('label').find((one) => one.text() === 'Slip number')!;
    await wrapper.get(`[id="${label.attributes('for')}"]`).setValue('483201957');
    await press(/^Open slip$/);
  };
  await type();
  expect(wrapper.text()).toContain('This slip was already used for ticket 26-0012');
  desk.answers['slips.find'] = () =>
    ok({ code: '483-201-957', draft: { ...ROSA, slip: '483-201-957' }, ticket: null });
  await type();
  expect(wrapper.text()).toContain('From Rosa Vega’s own check-in');
  await press(/^Back to the list$/);
  desk.answers['slips.find'] = () => ok({ code: '483-201-957', draft: null, ticket: null });
  await type();
  expect(wrapper.text()).toContain('Slip 483-201-957: nothing has been entered for it yet');
  await wrapper.get('[role=combobox]').setValue('Luc Morin');
  await wrapper.get('input[type=radio][aria-label="Mule deer"]').trigger('click', { detail: 1 });
  await wrapper.get('input[type=radio][aria-label="Buck"]').trigger('click', { detail: 1 });
  await weigh();
  await press(/^Check in$/);
  expect(station.sent()).toMatchObject([{ input: { slip: '483-201-957' } }]);
  expect(station.sent()[0]?.input).not.toHaveProperty('draftId');
  expect(button(/^Next animal$/)).toBeDefined();
});
