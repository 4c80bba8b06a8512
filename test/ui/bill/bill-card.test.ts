// @vitest-environment happy-dom
/** Undoing the void of a bill restores the same bill; no new bill is made. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { BillView } from '../../../src/bridge/contract.ts';
import BillCard from '../../../src/ui/bill/BillCard.vue';
import { useToasts } from '../../../src/ui/parts/toasts.ts';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const sums = (totalMinor: number) => ({
  currency: 'USD', lines: [], subtotalMinor: totalMinor, taxMinor: 0, totalMinor,
}); // prettier-ignore
/** A bill of $100.00; one made now would be $120.00. */
const VIEW = {
  animalId: 4, ticket: '26-0004', currency: 'USD', lacks: [], unpriced: [], chargeable: [], voidedBills: [],
  draft: { ...sums(12_000), depositMinor: 0, exampleBook: false },
  bill: { ...sums(10_000), id: 7, number: 12, billedOn: '2026-11-20', by: 'MK', voided: null },
} as unknown as BillView; // prettier-ignore

async function voided() {
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const card = mountPart(BillCard, { props: { view: VIEW }, global: { plugins: [router] } });
  desk.answers['bills.void'] = () => ok({ billId: 7 });
  await card.findAll('button').find((one) => one.text() === 'Void bill')!.trigger('click');
  await card.find('input').setValue('wrong weight');
  await card.find('form').trigger('submit');
  await flushPromises();
  await card.setProps({ view: { ...VIEW, bill: null } });
} // prettier-ignore
const calls = () => desk.calls.map(({ name }) => name).filter((name) => name.startsWith('bills.'));

describe('undoing the void of a bill', () => {
  it('restores the same bill, instead of making one at current prices', async () => {
    await voided();
    desk.answers['bills.restore'] = () => ok({ id: 8, number: 13 });
    expect(useToasts().undoLast()).toBe(true);
    await flushPromises();
    expect(calls()).toEqual(['bills.void', 'bills.restore']);
    expect(desk.calls.at(-1)?.input).toMatchObject({ billId: 7 });
    expect(useToasts().shown?.text).toBe('The bill was restored as bill 13.');
  });

  it('reports why it cannot be restored', async () => {
    await voided();
    desk.answers['bills.restore'] = () => ({
      ok: false,
      problem: { kind: 'refused', code: 'bill.changed', with: { number: 12 } },
    });
    useToasts().undoLast();
    await flushPromises();
    expect(useToasts().shown?.text).toMatch(/after bill 12 was voided/);
  });
});
