/** One busy day of a shop by keyboard alone, from the first animal to the accountant's file, to the cent. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { beginToCount, countedOf } from '../../replay/intake-keys.ts';
import * as counter from './counter.ts';
import { addCape, splitAmongTwo, takeIn } from './drop-off.ts';
import { FIRST_BATCH, PAID, SECOND_BATCH } from './figures.ts';
import * as evening from './evening.ts';
import { openDay, type Day } from './open-day.ts';
import { EVERYBODY } from './people.ts';
import * as result from './result.ts';
import { cleanGrinder, cutEverything, grind, setReady } from './work-room.ts';

let day: Day;
beforeAll(async () => {
  day = await openDay();
  await beginToCount(day.page);
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => day.tellOf(task.name)));
afterAll(() => day?.close());

describe('a day of the shop, by keyboard', { timeout: 150_000 }, () => {
  it('takes in twelve animals with their deposits', async () => {
    const { keys, page } = day;
    await keys.tabTo(page.getByRole('button', { name: 'MK', exact: true }));
    await keys.press('Enter');
    await keys.goTo('intake', 2);
    for (const who of EVERYBODY) await takeIn(day, who);
    await splitAmongTwo(day);
    await addCape(day);
    expect((await day.call('records.list', {})).length).toBe(EVERYBODY.length + 1);
  });

  it('grinds two pooled batches and divides the packages among the hunters', async () => {
    await cutEverything(day);
    await grind(day, FIRST_BATCH);
    await cleanGrinder(day);
    await grind(day, SECOND_BATCH);
    await setReady(day, 'dee');
  });

  it('bills to the cent, takes payments, refunds, and hands over', async () => {
    await counter.billPayAndGo(day, 'al', { cents: PAID.al, how: 'Cash' });
    await counter.firstOfThePair(day);
    const elk = [
      { cents: PAID.eliCash, how: 'Cash', typed: true },
      { cents: PAID.eliCard, how: 'Card' },
    ] as const;
    await counter.billPayAndGo(day, 'eli', ...elk);
    await counter.billPayAndGo(day, 'hal', { cents: PAID.hal, how: 'Cash' });
    await counter.billPayAndGo(day, 'ida', { cents: PAID.ida, how: 'Card' });
    await counter.kayComes(day);
    await counter.maxGetsMoneyBack(day);
    await counter.louLeavesUnpaid(day);
    await counter.jonDonates(day);
  });

  it('holds everything affected by a late positive result, and lists whom to call', async () => {
    await result.comesBackPositive(day);
    await result.namesEverybody(day);
    await result.refusesTheRest(day);
    await result.isDealtWith(day);
  });

  it('lists open balances, each share under its debtor', () => evening.openBalances(day));

  it('closes the till to the cent', () => evening.closeTill(day));

  it('prints the record book of the week for an officer, without prices', () => evening.printForOfficer(day));

  it('exports the same figures for the accountant', () => evening.saveForAccountant(day));

  it('needed no mouse, and raised no console errors', async () => {
    expect((await countedOf(day.page)).clicks).toBe(0);
    expect(day.complaints).toEqual([]);
  });
});
