/** The counter in the afternoon: bills, discounts, payments and pickup. */
import { expect } from 'vitest';
import { at } from '../../replay/intake-keys.ts';
import { BILLS, dollars, OPEN, PAID, PAIR, typed } from './figures.ts';
import { look, openAnimal, openBill, pressInSheet, sheet } from './hands.ts';
import type { Day } from './open-day.ts';
import { GUESTS, type Who } from './people.ts';

type Billed = keyof typeof BILLS;

/** Makes the bill of the animal whose bill page is open, and reads its total. */
async function makeBill(day: Day, who: Billed): Promise<void> {
  const { page, keys, call, ids } = day;
  const { net, tax, total } = BILLS[who];
  await page.getByRole('row', { name: `Total ${dollars(total)}`, exact: true }).waitFor();
  await keys.pressOn('Make bill');
  await page
    .getByRole('heading', { name: /^Bill \d+$/ })
    .first()
    .waitFor();
  const { bill } = await call('bills.get', { animalId: ids[who] });
  expect(bill, who).toMatchObject({ taxMinor: tax, totalMinor: total, by: 'MK' });
  expect((bill?.totalMinor ?? 0) - (bill?.taxMinor ?? 0), who).toBe(net);
}

interface Payment {
  cents: number;
  how: 'Cash' | 'Check' | 'Card';
  what?: 'Payment' | 'Refund';
  /** Replaces the existing value. */
  typed?: boolean;
}

/** Takes a payment at the open bill; the amount defaults to the balance due. */
async function pay(day: Day, payment: Payment): Promise<void> {
  const { page, keys } = day;
  await keys.choose('Type', payment.what ?? 'Payment');
  await keys.choose('Method', payment.how);
  const amount = page.getByRole('textbox', { name: 'Amount', exact: true });
  if (payment.typed) await keys.fill('Amount', typed(payment.cents));
  else {
    expect(await amount.inputValue()).toBe(typed(payment.cents));
    await keys.tabTo(amount);
  }
  await keys.press('Enter');
  const row = page
    .getByRole('table', { name: 'Payments' })
    .getByRole('row', { name: dollars(payment.cents) });
  await row.getByText(payment.how).first().waitFor();
}

/** Hands an animal over at Pickup to its hunter. */
async function handOver(day: Day, who: Who): Promise<void> {
  const { page, keys, tickets } = day;
  await keys.goTo('pickup', 7);
  await keys.pressOn(`Hand over ${tickets[who]}`);
  await pressInSheet(day, 'Hand over');
  await page.getByText(`${tickets[who]} was handed to ${GUESTS[who].name}.`).waitFor();
}

/** A deer is billed, paid and picked up. */
export async function billPayAndGo(day: Day, who: Billed, ...payments: Payment[]): Promise<void> {
  await openBill(day, who);
  await makeBill(day, who);
  for (const payment of payments) await pay(day, payment);
  await day.page.getByText('Paid in full').first().waitFor();
  await handOver(day, who);
}

/** Flo pays her share and picks it up; Gus comes later. */
export async function firstOfThePair(day: Day): Promise<void> {
  const { page, keys, tickets } = day;
  await openBill(day, 'flo');
  await makeBill(day, 'flo');
  const parts = page.getByRole('table', { name: 'Hunters’ shares' });
  await parts.getByRole('row', { name: new RegExp(`Flo Fitch 60.0%.*\\${dollars(PAIR.flo)}`) }).waitFor();
  await parts.getByRole('row', { name: new RegExp(`Gus Gale 40.0%.*\\${dollars(PAIR.gus)}`) }).waitFor();
  await keys.choose('Paid by', 'Flo Fitch');
  await pay(day, { cents: PAID.flo, how: 'Check' });
  await keys.goTo('pickup', 7);
  await keys.pressOn(`Hand over ${tickets.flo}`);
  await sheet(day).getByText('Flo Fitch’s share: 60.0%').waitFor();
  await keys.choose('Packages', 'Hand over to Flo Fitch');
  await look(day, '4-pair-pickup');
  await pressInSheet(day, 'Hand over');
  await page.getByText('A share was handed over to Flo Fitch.').waitFor();
}

/** Kay's cape was caped and goes to the taxidermist; a discount of 10 % has a reason. */
export async function kayComes(day: Day): Promise<void> {
  const { page, keys, call, ids } = day;
  await openAnimal(day, 'kay');
  await keys.pressOn('Record where it went: Cape');
  await keys.choose('Where it went', 'To the taxidermist');
  await keys.fill('Taxidermist', 'Pine Studio');
  await keys.fill('Receipt number', 'R-12');
  await keys.press('Enter');
  await page.getByRole('row', { name: /to the taxidermist Pine Studio/ }).waitFor();
  await openBill(day, 'kay');
  await keys.pressOn('One more of Caping for a mount');
  await page.getByRole('row', { name: /^Caping for a mount 1 / }).waitFor();
  await keys.pressOn('Add a discount or change');
  await keys.choose('Kind', 'Percent off');
  await keys.fill('Percent', '10');
  await keys.fill('Reason', 'third deer this year');
  await look(day, '4-discount');
  await keys.press('Enter');
  await page.getByRole('row', { name: /^Discount: third deer this year/ }).waitFor();
  const { adjustments } = await call('bills.get', { animalId: ids.kay });
  expect(adjustments).toMatchObject([{ reason: 'third deer this year', by: 'MK' }]);
  await makeBill(day, 'kay');
  await pay(day, { cents: PAID.kay, how: 'Check' });
  await handOver(day, 'kay');
}

/** Max's deposit exceeds the bill: the rest is refunded in cash. */
export async function maxGetsMoneyBack(day: Day): Promise<void> {
  await openBill(day, 'max');
  await makeBill(day, 'max');
  await day.page.getByText('Refund due').first().waitFor();
  await look(day, '4-refund');
  await pay(day, { cents: PAID.maxRefund, how: 'Cash', what: 'Refund' });
  await day.page.getByText('Paid in full').first().waitFor();
  await handOver(day, 'max');
}

/** Lou pays in part, and Mika signs for handing the meat over unpaid. */
export async function louLeavesUnpaid(day: Day): Promise<void> {
  const { page, keys, tickets } = day;
  await openBill(day, 'lou');
  await makeBill(day, 'lou');
  await pay(day, { cents: PAID.lou, how: 'Cash', typed: true });
  await page.getByText(dollars(OPEN.lou)).first().waitFor();
  await keys.goTo('pickup', 7);
  await keys.pressOn(`Hand over ${tickets.lou}`);
  await pressInSheet(day, 'Hand over');
  await sheet(day).getByText(dollars(OPEN.lou)).first().waitFor();
  await at(page, 'Approved by (initials)');
  await keys.type('MK');
  await look(day, '4-unpaid');
  await keys.press('Enter');
  await page.getByText(`${tickets.lou} was handed to Lou Lane.`).waitFor();
}

/** All of Jon's deer is donated to the program. */
export async function jonDonates(day: Day): Promise<void> {
  const { page, keys, call, ids } = day;
  await openAnimal(day, 'jon');
  await keys.pressOn('Donate');
  await keys.choose('What is donated', 'All of it');
  const weight = sheet(day).getByRole('textbox', { name: 'Weight, lb' });
  expect(await weight.inputValue()).toBe('31.50');
  await keys.fill('Confirmation number', 'HS-88');
  await look(day, '4-donation');
  await keys.press('Enter');
  // 31.50 lb × 1.50 = 47.25.
  await page
    .getByText(/31.50 lb donated to Hunters Share on .*HS-88, the program owes \$47.25/)
    .first()
    .waitFor();
  expect((await call('animals.get', { id: ids.jon })).stage).toBe('released');
}
