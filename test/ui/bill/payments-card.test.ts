// @vitest-environment happy-dom
/** The balance due of a bill, or what was paid once nothing is due. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { BillView } from '../../../src/bridge/contract.ts';
import PaymentForm from '../../../src/ui/bill/PaymentForm.vue';
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
  [-500, BILL, 'Refund due$5.00'],
])('of %i cents reads as such', (dueMinor, bill, words) => {
  expect(said(dueMinor, bill)).toBe(words);
});

const wordsOf = (dueMinor: number, more: object = {}) =>
  ({
    animalId: 4, ticket: '26-0004', currency: 'USD', paidIn: 'USD', paidMinor: 0, payments: [], payers: [], draft: null, shares: [],
    dueMinor, bill: BILL, ...more,
  }) as unknown as BillView; // prettier-ignore

describe('a balance that another window changes', () => {
  const opened = () => mountPart(PaymentForm, { props: { view: wordsOf(12_000) } });
  const amount = (form: ReturnType<typeof opened>) => form.find<HTMLInputElement>('input[inputmode=decimal]');

  it('is taken over where nobody typed', async () => {
    const form = opened();
    expect(amount(form).element.value).toBe('120.00');
    await form.setProps({ view: wordsOf(7000) });
    expect(amount(form).element.value).toBe('70.00');
    expect(form.text()).not.toContain('balance changed');
  });

  it('leaves what was typed, and says what is due now', async () => {
    const form = opened();
    await amount(form).setValue('45');
    await form.setProps({ view: wordsOf(7000) });
    expect(amount(form).element.value).toBe('45');
    expect(form.text()).toContain('The balance changed while you typed. $70.00 is due now.');
    await form.setProps({ view: wordsOf(-500) });
    // It does not become a refund of what was typed as a payment.
    expect(form.find<HTMLInputElement>('input[value=payment]').element.checked).toBe(true);
    expect(form.text()).toContain('$5.00 is to be refunded now.');
    await form.setProps({ view: wordsOf(0) });
    expect(form.text()).toContain('Nothing is due now.');
  });

  it('is that of the hunter who pays, as soon as one is picked', async () => {
    const shares = [{ hunterId: 8, name: 'Rosa Ortega', dueMinor: 3000 }];
    const form = mountPart(PaymentForm, { props: { view: wordsOf(12_000, { shares }) } });
    await amount(form).setValue('45');
    await form.find('input[value="8"]').setValue(true);
    expect(amount(form).element.value).toBe('30.00');
    await form.setProps({ view: wordsOf(12_000, { shares: [{ ...shares[0], dueMinor: 1000 }] }) });
    expect(amount(form).element.value).toBe('10.00');
  });
});
