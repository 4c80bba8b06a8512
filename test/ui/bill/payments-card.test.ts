// @vitest-environment happy-dom
/** The balance due of a bill, or what was paid once nothing is due. */
import { beforeEach, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { BillView } from '../../../src/bridge/contract.ts';
import PaymentsCard from '../../../src/ui/bill/PaymentsCard.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const BILL = { id: 7, number: 12, billedOn: '2026-11-20', by: 'MK', voided: null };

function said(dueMinor: number, bill: object | null): string {
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const view = {
    animalId: 4, ticket: '26-0004', currency: 'USD', paidIn: 'USD', paidMinor: 12_000, payments: [], payers: [], draft: null, shares: [],
    dueMinor, bill,
  };
  const card = mountPart(PaymentsCard, {
    props: { view: view as unknown as BillView },
    global: { plugins: [router] },
  });
  return card.find('p').text().replaceAll(/\s+/g, ' ');
} // prettier-ignore

it.each([
  [12_000, BILL, 'Balance due$120.00'],
  [0, BILL, 'Paid in full$120.00'],
  [0, null, 'Balance due$0.00'],
  [-500, BILL, 'To be refunded$5.00'],
])('of %i cents reads as such', (dueMinor, bill, words) => {
  expect(said(dueMinor, bill)).toBe(words);
});
