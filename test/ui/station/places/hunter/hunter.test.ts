// @vitest-environment happy-dom
/** A hunter's own check-in, mounted: one step after the other, and nothing left for whoever comes next. */
import { flushPromises } from '@vue/test-utils';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Answer, CallInput, CallOutput } from '../../../../../src/bridge/contract.ts';
import HunterPlace from '../../../../../src/ui/station/places/hunter/HunterPlace.vue';
import { waysFor } from '../../../../../src/ui/station/places/hunter/check-in-form.ts';
import { mountPart } from '../../../mount-part.ts';
import { desk, ok } from '../../../played-desk.ts';
import { openStation } from '../../station-window.ts';

vi.mock(
  '../../../../../src/bridge/client/index.ts',
  async () => (await import('../../../played-desk.ts')).client,
);
vi.mock(
  '../../../../../src/ui/station/kept/entries.ts',
  async () => (await import('../../kept-entries.ts')).kept,
);

const ORDERS = {
  cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null, alsoGround: [],
  packageGrams: 450, pricedExtras: {}, extras: [], note: '',
} as const; // prettier-ignore
const SHEET = {
  shopName: 'Oak Ridge', today: '2026-11-24', unit: 'lb', terms: 'Pick up within 5 days.', termsLanguage: 'en-US',
  species: [
    { code: 'elk', title: 'Elk', male: 'bull', female: 'cow', body: 'elk', primals: [{ code: 'haunch', title: 'Haunch' }] },
    { code: 'boar', title: 'Boar', male: 'boar', female: 'sow', body: 'boar', primals: [{ code: 'ham', title: 'Ham' }] },
  ],
  usual: { title: '', fits: ['elk', 'boar'], instructions: { ...ORDERS, standard: true }, made: ['Ground'], charges: [] },
  ways: [
    { title: 'All burger', fits: ['elk', 'boar'], instructions: ORDERS, made: ['Ground'], charges: ['links'] },
    { title: 'Elk steaks', fits: ['elk'], instructions: { ...ORDERS, primals: [{ primal: 'haunch', as: 'steaks', size: '' }] }, made: ['Ground'], charges: [] },
  ],
  fats: [],
  prices: {
    currency: 'USD',
    lines: [
      { code: 'cut', title: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null, fat: null, least: null },
      { code: 'boar', title: 'Boar skinned', basis: 'animal', amountMinor: 4000, rate: null, unit: null, species: ['boar'], brought: null, fat: null, least: null },
      { code: 'links', title: 'Links', basis: 'product', amountMinor: 350, rate: null, unit: 'lb', species: null, brought: null, fat: null, least: null },
    ],
  },
} as unknown as CallOutput<'drafts.begin'>; // prettier-ignore

const refused = (code: string): Answer<never> => ({ ok: false, problem: { kind: 'conflict', code } });

let sent: CallInput<'drafts.add'>[];
let station: Awaited<ReturnType<typeof openStation>>;
beforeEach(async () => {
  vi.useFakeTimers();
  station = await openStation();
  station.line.connection = { state: 'connected' };
  sent = [];
  desk.answers['drafts.begin'] = () => ok(SHEET);
  desk.answers['drafts.add'] = (input) => {
    sent.push(input as CallInput<'drafts.add'>);
    return ok({ id: 1 });
  };
});
afterEach(() => vi.useRealTimers());

async function tablet() {
  const wrapper = mountPart(HunterPlace);
  const settle = async () => {
    await flushPromises();
    await vi.advanceTimersByTimeAsync(1);
  };
  const press = async (name: string) => {
    await wrapper
      .findAll('button')
      .find((one) => one.text() === name)!
      .trigger('click');
    await settle();
  };
  const goOn = async () => {
    await wrapper.get('form').trigger('submit');
    await settle();
  };
  const type = async (label: string, value: string) => {
    const id = wrapper
      .findAll('label')
      .find((one) => one.text() === label)!
      .attributes('for');
    await wrapper.get(`[id="${id}"]`).setValue(value);
  };
  const pick = async (label: string) => {
    await wrapper.get(`input[type=radio][aria-label="${label}"]`).trigger('click', { detail: 1 });
    await settle();
  };
  const sign = async () => {
    const pad = wrapper.get('svg');
    Object.assign(pad.element, {
      setPointerCapture: () => undefined,
      getBoundingClientRect: () => ({ left: 0, top: 0, width: 1000, height: 300 }),
    });
    await pad.trigger('pointerdown', { clientX: 100, clientY: 100, pointerId: 1 });
    await pad.trigger('pointermove', { clientX: 200, clientY: 150 });
    await pad.trigger('pointerup');
  };
  await settle();
  return {
    wrapper, press, goOn, type, pick, sign,
    async toTerms() {
      await press('English (United States)');
      await type('Name', 'Rosa Vega');
      await goOn();
      for (const label of ['Elk', 'Cow', 'Yesterday']) await pick(label);
      await goOn();
      await pick('Elk steaks');
      await type('Anything else? For example: thick steaks', 'thick');
      await goOn();
    },
  }; // prettier-ignore
}

describe('a hunter’s own check-in', () => {
  it('sends a draft in the language that was chosen, and thanks', async () => {
    const { toTerms, sign, goOn, wrapper } = await tablet();
    await toTerms();
    expect(wrapper.text()).toContain(SHEET.terms);
    await sign();
    await goOn();
    expect(sent).toEqual([
      {
        language: 'en-US', name: 'Rosa Vega', phone: '', licence: '', species: 'elk', sex: 'female', tag: '', killDate: '2026-11-23',
        killArea: '', instructions: { ...SHEET.ways[1]!.instructions, note: 'thick' }, terms: SHEET.terms,
        signature: 'M100,100L100,100L200,150',
      },
    ]); // prettier-ignore
    expect(wrapper.text()).toContain('Thank you, Rosa Vega');
  });

  it('asks for what is missing before the next step, and sends nothing', async () => {
    const { press, goOn, wrapper, toTerms } = await tablet();
    await press('English (United States)');
    await goOn();
    expect(wrapper.get('[role=alert]').text()).toBe('Type your name.');
    await press('Start over');
    await toTerms();
    await goOn();
    expect(wrapper.get('[role=alert]').text()).toBe('Sign with your finger first.');
    expect(sent).toEqual([]);
  });

  it('shows what each way makes of the animal, and what the price list asks for it', async () => {
    const { press, type, goOn, pick, wrapper } = await tablet();
    await press('English (United States)');
    await type('Name', 'Rosa Vega');
    await goOn();
    for (const label of ['Elk', 'Cow']) await pick(label);
    await goOn();
    expect(wrapper.get('.always').text()).toContain('Cutting: $95.00 per animal');
    expect(wrapper.text()).not.toContain('Boar skinned');
    const way = (title: string) =>
      wrapper
        .findAll('label.way')
        .find((one) => one.get('.title').text() === title)!
        .text();
    expect(way('Elk steaks')).toContain('Haunch: steaks');
    expect(way('All burger')).toContain('Links: $3.50 per lb');
    expect(way('Elk steaks')).not.toContain('$');
  });

  it('leaves the terms out where a shop has none', async () => {
    desk.answers['drafts.begin'] = () => ok({ ...SHEET, terms: '' });
    const { toTerms, wrapper } = await tablet();
    await toTerms();
    expect(sent).toMatchObject([{ terms: '', signature: '' }]);
    expect(wrapper.text()).toContain('Thank you');
  });

  it('shows new terms, and has them signed anew', async () => {
    const { toTerms, sign, goOn, wrapper } = await tablet();
    await toTerms();
    await sign();
    desk.answers['drafts.add'] = () => refused('draft.terms-changed');
    desk.answers['drafts.begin'] = () => ok({ ...SHEET, terms: 'Within 3 days.' });
    await goOn();
    expect(wrapper.text()).toContain('Within 3 days.');
    expect(wrapper.text()).toContain('The shop changed its terms');
    expect(wrapper.get('svg path').attributes('d')).toBe('');
  });

  it('begins anew by itself 20 s after it is done, and 90 s after it was left', async () => {
    const { toTerms, sign, goOn, wrapper, press, type } = await tablet();
    await toTerms();
    await sign();
    await goOn();
    await vi.advanceTimersByTimeAsync(19_000);
    expect(wrapper.text()).toContain('Rosa Vega');
    await vi.advanceTimersByTimeAsync(2_000);
    expect(wrapper.html()).not.toContain('Rosa');
    await press('English (United States)');
    expect(wrapper.get('input').element.value).toBe('');
    await type('Name', 'Bo Rask');
    window.dispatchEvent(new Event('keydown'));
    await vi.advanceTimersByTimeAsync(88_000);
    expect(wrapper.find('form').exists()).toBe(true);
    await vi.advanceTimersByTimeAsync(3_000);
    expect(wrapper.find('form').exists()).toBe(false);
  });

  it('sends hunters to the counter while the desk is away', async () => {
    station.line.connection = { state: 'away', since: null };
    desk.answers['drafts.begin'] = () => refused('station.away');
    const { press, wrapper } = await tablet();
    await press('English (United States)');
    expect(wrapper.text()).toContain('Please go to the counter.');
    expect(wrapper.find('form').exists()).toBe(false);
  });
});

it('offers only ways that fit the animal, each by its place in the whole list', () => {
  const way = (title: string, fits: string[]) => ({ ...SHEET.usual, title, fits });
  const ways = [way('All burger', ['elk', 'boar']), way('Ham', ['boar']), way('Elk steaks', ['elk'])];
  expect(waysFor({ ...SHEET, ways }, 'elk').map(({ title, cuts }) => [title, cuts])).toEqual([
    ['All burger', 'way 0'],
    ['Elk steaks', 'way 2'],
  ]);
});
