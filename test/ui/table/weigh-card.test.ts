// @vitest-environment happy-dom
/** The number entry of the Table, mounted: letters, numbers, doubts, corrections and undo. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { defineComponent, h, shallowRef } from 'vue';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage, Problem, WeighingRow } from '../../../src/bridge/contract.ts';
import { useToasts } from '../../../src/ui/parts/toasts.ts';
import { useConfirmedWeights } from '../../../src/ui/table/confirmed-weights.ts';
import { useWeigh } from '../../../src/ui/table/useWeigh.ts';
import StepButtons from '../../../src/ui/table/steps/StepButtons.vue';
import WeighCard from '../../../src/ui/table/WeighCard.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const row = (more: Partial<WeighingRow>): WeighingRow =>
  ({
    id: 1, stage: 'hanging', part: 'carcass', primal: null, product: null, place: null, typed: '80', unit: 'lb', grams: 36_287,
    tareTyped: null, tareUnit: null, source: 'typed', voided: null, ...more,
  }) as WeighingRow; // prettier-ignore
const DEER = {
  id: 12, ticket: '26-0012', stage: 'cutting', brought: 'skinned', detail: 'detailed', hold: null, none: [],
  primals: [], packages: [], weighings: [row({})], expected: [], partRows: [], waitsFor: [],
  instructions: { cutsShare: 0.4, grindProduct: 'Ground', alsoGround: [], packageGrams: 453.59237 },
} as unknown as AnimalPage; // prettier-ignore
const doubt = (code: string, told: object = {}): Problem => ({
  kind: 'conflict',
  code,
  with: told as Problem['with'],
});
const kept = ok({ weighingId: 7, grams: 8445.89 });

beforeEach(() => openWindow());

/** The card of a deer with a hanging weight; the weights get these answers, one after another. */
async function card(...answers: ReturnType<typeof ok>[]) {
  const page = shallowRef(DEER);
  desk.answers['table.weigh'] = () => answers.shift() ?? kept;
  let weigh: ReturnType<typeof useWeigh>;
  const Host = defineComponent({
    setup() {
      weigh = useWeigh(page);
      return () => h(WeighCard, { page: page.value, weigh });
    },
  });
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/', component: Host }] });
  const wrapper = mountPart(Host, { global: { plugins: [router] } });
  await flushPromises();
  const input = wrapper.get('.weight.big input');
  const press = async (key: string): Promise<void> => {
    await input.trigger('keydown', { key });
    await flushPromises();
  };
  return {
    wrapper,
    page,
    weigh: weigh!,
    press,
    value: () => (input.element as HTMLInputElement).value,
    async enter(text: string) {
      await input.setValue(text);
      await press('Enter');
    },
    sent: () => desk.calls.filter(({ name }) => name === 'table.weigh').map(({ input: sent }) => sent),
  };
}

describe('weighing at the table', () => {
  it('selects the part by its letter while empty, saves on Enter, and selects the next', async () => {
    const { press, enter, sent, value } = await card();
    await press('t');
    await enter('18.62');
    expect(sent()).toMatchObject([
      { animalId: 12, stage: 'cut', part: 'trim', typed: '18.62', source: 'typed', confirmed: false },
    ]);
    expect(value()).toBe('');
    expect(document.activeElement?.closest('.weight.big')).not.toBeNull();
  });

  it('treats a letter after a number as its unit, not as a part', async () => {
    const { wrapper, press, enter, sent } = await card();
    await press('t');
    await wrapper.get('.weight.big input').setValue('18');
    await press('f');
    await enter('18 lb 6 oz');
    expect(sent()).toMatchObject([{ part: 'trim', typed: '18 lb 6 oz' }]);
  });

  it('selects parts by arrows, also beside a typed number', async () => {
    const { press, enter, sent } = await card();
    await press('ArrowDown');
    await press('ArrowDown');
    await press('ArrowUp');
    await enter('5');
    expect(sent()).toMatchObject([{ part: 'trim' }]);
  });

  it('voids a saved weight from its toast', async () => {
    desk.answers['table.void'] = () => ok();
    const { enter } = await card();
    await enter('18.62');
    expect(useToasts().shown?.text).toMatch(/18\.62 lb/);
    useToasts().undoLast();
    await flushPromises();
    expect(desk.calls.at(-1)).toEqual({ name: 'table.void', input: { weighingId: 7, reason: 'undone' } });
  });

  it('reports why a weight cannot be undone', async () => {
    desk.answers['table.void'] = () => ({
      ok: false,
      problem: { kind: 'refused', code: 'weighing.used', with: { grams: 8445.89, part: 'trim' } },
    });
    const { enter } = await card();
    await enter('18.62');
    useToasts().undoLast();
    await flushPromises();
    expect(useToasts().shown?.text).toMatch(/^18\.62 lb of this trim is already in the grinder/);
    expect(useToasts().shown?.undo).toBeUndefined();
  });

  it('states with 0 that there is none of a part, instead of saving a weight', async () => {
    desk.answers['table.stateNone'] = () => ok({ noneId: 3 });
    const { press, enter, sent } = await card();
    await press('b');
    await enter('0');
    expect(desk.calls.at(-1)).toEqual({ name: 'table.stateNone', input: { animalId: 12, part: 'bone' } });
    expect(sent()).toEqual([]);
  });
});

describe('a doubted weight', () => {
  const over = {
    ok: false,
    problem: doubt('weight.unlikely', {
      likely: '18.6',
      grams: 84_368,
      low: 5_000,
      high: 6_500,
      part: 'trim',
    }),
  } as const;

  it('is corrected with M', async () => {
    const { enter, press, sent, value } = await card(over);
    await enter('186');
    await press('m');
    expect(sent().at(-1)).toMatchObject({ typed: '18.6', confirmed: false });
    expect([value(), useConfirmedWeights().confirmed.size]).toEqual(['', 0]);
  });

  it('is saved as typed with Y, and remembered as confirmed', async () => {
    const { enter, press, sent } = await card(over);
    await enter('186');
    await press('y');
    expect(sent().at(-1)).toMatchObject({ typed: '186', confirmed: true });
    expect([...useConfirmedWeights().confirmed]).toEqual([7]);
  });

  it('is asked about again if the parts exceed the animal', async () => {
    const { enter, press } = await card({
      ok: false,
      problem: doubt('weight.over', { likely: '18.6', overGrams: 900, grams: 1 }),
    });
    await enter('186');
    await press('y');
    expect([...useConfirmedWeights().confirmed]).toEqual([]);
  });

  it.each(['n', 'Escape'])('is typed again with %s', async (key) => {
    const { enter, press, sent, value, weigh } = await card(over);
    await enter('186');
    await press(key);
    expect([value(), sent().length, weigh.ask.value]).toEqual(['', 1, null]);
  });

  it('is no longer asked about once another number is typed', async () => {
    const { wrapper, enter, weigh } = await card(over);
    await enter('186');
    await wrapper.get('.weight.big input').setValue('1');
    expect(weigh.ask.value).toBeNull();
  });
});

describe('correcting a weight', () => {
  it('replaces the old one, and can be undone', async () => {
    desk.answers['table.correct'] = () => ok({ weighingId: 8, grams: 36_741 });
    const { weigh, enter, wrapper } = await card();
    weigh.startCorrecting(row({}));
    await flushPromises();
    expect(wrapper.text()).toContain('80 lb');
    await enter('81');
    expect(desk.calls.at(-1)).toEqual({
      name: 'table.correct',
      input: { weighingId: 1, typed: '81', source: 'typed', reason: 'weighed again', confirmed: false },
    });
    expect(weigh.correcting.value).toBeNull();
    useToasts().undoLast();
    await flushPromises();
    expect(desk.calls.at(-1)?.input).toMatchObject({
      weighingId: 8,
      typed: '80 lb',
      reason: 'correction undone',
    });
  });

  it('is canceled with Escape', async () => {
    const { weigh, press } = await card();
    weigh.startCorrecting(row({}));
    await flushPromises();
    await press('Escape');
    expect(weigh.correcting.value).toBeNull();
    expect(desk.calls).toEqual([]);
  });

  it('is what R does with a second hanging weight', async () => {
    desk.answers['table.correct'] = () => ok({ weighingId: 8, grams: 36_741 });
    const { weigh, enter, press } = await card({
      ok: false,
      problem: doubt('weight.hung-again', { count: 1, grams: 36_287 }),
    });
    weigh.entry.stage = 'hanging';
    await flushPromises();
    await enter('81');
    await press('r');
    expect(desk.calls.at(-1)).toMatchObject({ name: 'table.correct', input: { weighingId: 1, typed: '81' } });
    expect(weigh.entry.stage).not.toBe('hanging');
  });
});

describe('an animal that is being packed', () => {
  const packed = { stage: 'packing', packages: [{ product: 'Steaks', count: 8, grams: 9000, places: [] }] };
  const offered = async (more: object): Promise<{ button: string | undefined; key: boolean }> => {
    const { wrapper, page, weigh, press } = await card();
    page.value = { ...DEER, ...packed, ...more } as unknown as AnimalPage;
    weigh.entry.stage = 'packed';
    await flushPromises();
    await press('r');
    const props = { page: page.value, weighs: 'packed' as const, first: true, busy: false };
    const buttons = mountPart(StepButtons, { props }).findAll('button');
    return {
      button: buttons.map((one) => one.text()).find((one) => one.startsWith('Packed, ready for pickup')),
      key: wrapper.findComponent(WeighCard).emitted('ready') !== undefined,
    };
  };

  it('is set ready from its weights, but not while a batch waits for a result', async () => {
    expect(await offered({})).toEqual({ button: 'Packed, ready for pickupR', key: true });
    expect(await offered({ waitsFor: [{ ticket: '26-0002', batch: 'G26-001', positive: true }] })).toEqual({
      button: undefined,
      key: false,
    });
  });
});
