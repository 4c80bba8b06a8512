// @vitest-environment happy-dom
/** Voiding, archiving and reopening can be undone from their toast. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { AnimalPage, ShopView, TillClosing, TillView } from '../../../src/bridge/contract.ts';
import { useToasts } from '../../../src/ui/parts/toasts.ts';
import CoolerList from '../../../src/ui/shop/CoolerList.vue';
import { useReopen } from '../../../src/ui/table/steps/useReopen.ts';
import ClosedTill from '../../../src/ui/till/ClosedTill.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const COOLER = { id: 4, name: 'Room 1', places: 9 };
beforeEach(() => openWindow({ coolers: [COOLER] } as unknown as Partial<ShopView>));

async function undoneBy(call: string): Promise<unknown> {
  await flushPromises();
  desk.answers[call] = () => ok({});
  expect(useToasts().undoLast()).toBe(true);
  await flushPromises();
  const last = desk.calls.at(-1);
  expect(last?.name).toBe(call);
  return last?.input;
}

it('an archived cooler', async () => {
  desk.answers['coolers.archive'] = () => ok({ id: 4 });
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const list = mountPart(CoolerList, { global: { plugins: [router] } });
  await list.findAll('button').find((one) => one.attributes('aria-label')?.endsWith('Room 1') && one.text() === 'Archive')!.trigger('click');
  expect(await undoneBy('coolers.restore')).toEqual({ id: 4 });
}); // prettier-ignore

it('a voided closing, which undo closes again with the same count', async () => {
  desk.answers['till.void'] = () => ok({ id: 2 });
  const sums = [
    { method: 'cash', by: null, count: 2, totalMinor: 9000 },
    { method: 'cash', by: 'MK', count: 2, totalMinor: 9000 },
  ];
  const view = {
    day: '2026-11-24', currency: 'USD', expectedMinor: 29_000, floatMinor: 20_000, cashMinor: 9000, sums, entries: [], carried: [], voidedClosings: [],
  } as unknown as TillView; // prettier-ignore
  const closing = {
    id: 2, number: 7, countedMinor: 29_000, overMinor: 0, note: '', counted: { total: '290' }, at: '2026-11-24T23:00:00Z', by: 'MK',
  } as TillClosing; // prettier-ignore
  const card = mountPart(ClosedTill, { props: { view, closing, focus: false } });
  await card.findAll('button')[1]!.trigger('click');
  await card.find('input').setValue('counted wrong');
  await card.find('form').trigger('submit');
  expect(await undoneBy('till.close')).toMatchObject({
    day: '2026-11-24', currency: 'USD', expectedMinor: 29_000, counted: { total: '290' }, note: '',
    seen: [{ method: 'cash', count: 2, totalMinor: 9000 }],
  }); // prettier-ignore
});

const LEFT = { id: 7, ticket: '26-0007', release: null, disposal: null, canceled: null, sharers: [] };
it.each([
  [{ release: { to: 'Ann', on: '2026-11-20', by: 'MK' } }, 'pickup.release', { id: 7, to: 'Ann', on: '2026-11-20', note: '', unpaidBy: '' }],
  [{ disposal: { what: 'all', how: 'landfill', reason: 'spoiled', on: '2026-11-20', by: 'MK' } }, 'animals.dispose', { id: 7, what: 'all', how: 'landfill', reason: 'spoiled', on: '2026-11-20' }],
  [{ canceled: { reason: 'twice', at: '', by: '' } }, 'animals.cancel', { id: 7, reason: 'twice' }],
])('a reopened animal: %j', async (how, call, input) => {
  desk.answers['animals.reopen'] = () => ok({ id: 7, stage: 'ready' });
  const { openAgain } = useReopen(() => ({ ...LEFT, ...how }) as unknown as AnimalPage);
  expect(await openAgain('wrong ticket')).toBe(true);
  expect(await undoneBy(call)).toEqual(input);
}); // prettier-ignore

it('but not one that several hunters picked up in shares', async () => {
  desk.answers['animals.reopen'] = () => ok({ id: 7, stage: 'ready' });
  const shared = { ...LEFT, release: { to: 'Ann', on: '2026-11-20', by: 'MK' }, sharers: [{}, {}] };
  await useReopen(() => shared as unknown as AnimalPage).openAgain('wrong ticket');
  expect(useToasts().undoLast()).toBe(false);
});
