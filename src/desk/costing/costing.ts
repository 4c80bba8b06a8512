/** What a pound through the shop really costs: its own running costs on its own weighings, against what it charges. */
import * as v from 'valibot';
import { fatSpent } from './fat.ts';
import { ASSUMED, figuresOf, figuresTyped, keepFigures, readFigures, SERVICES } from './figures.ts';
import { groupIncome } from './income.ts';
import { measure } from './measured.ts';
import { answerOf, feesOf, serviceOf } from './services.ts';
import { costByWork, costedAnimals, speciesMargins } from './species.ts';
import { missedQuotes } from './missed-quotes.ts';
import { read, write } from '../session/procedure.ts';
import type { DeskRoom } from '../session/room.ts';
import { billsSeenBy } from './bill-seen.ts';
import type { SeasonBillLine } from '../../book/sums/season-money.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { inSlices, oneByOne } from '../session/slices.ts';
import { billedAnimals } from './season-bills.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { CostFigures, CostingLook } from '../contract/contract.ts';

const season = v.optional(seasonYear);

/** The running season when none is asked for. */
export const look = read(v.object({ season }), async (room, input): Promise<CostingLook> => {
  const of = input.season ?? room.season();
  await lookUp(room, of);
  return costingLook(room, of);
});

/** Reads in slices what a first look at a season needs: its rows, and its bills as the prices in force see them. */
async function lookUp(room: DeskRoom, of: number): Promise<void> {
  const { seasonMoney } = room.book;
  await oneByOne([
    () => room.book.seasonRows(of),
    () => seasonMoney.packed(of),
    () => seasonMoney.bills(of),
    () => linesOf(room, of),
  ]);
  const seenBy = billsSeenBy(room, pricesInForce(room));
  await inSlices(billedAnimals(room, of), ({ amounts }) => seenBy(amounts).taken());
}

function linesOf(room: DeskRoom, of: number): readonly SeasonBillLine[] {
  const { currency } = room.settings;
  return room.ofSeason('money', of, `bill lines in ${currency}`, () =>
    room.book.seasonMoney.lines(of, currency),
  );
}

/** Keeps the shop's running costs as typed. @throws as `readFigures` */
export const save = write(figuresTyped, (room, input): { figures: CostFigures } => {
  const figures = readFigures(room, input);
  keepFigures(room, figures, input.by);
  return { figures };
});

function costingLook(room: DeskRoom, of: number): CostingLook {
  const { own, figures } = figuresOf(room);
  const used = room.book.seasonMoney.fat(of);
  const measured = measure(room, of, used);
  const services = {
    cutting: serviceOf('cutting', figures, measured.cutting),
    grinding: serviceOf('grinding', figures, measured.grinding),
    products: serviceOf('products', figures, measured.products),
  };
  const bills = billedAnimals(room, of);
  const fees = feesOf(room, { season: of, bills, used }, services);
  const spent = fatSpent(used);
  const animals = costedAnimals(room, bills, services, spent.perKg ?? ASSUMED.fatPerKg);
  const { currency } = room.settings;
  const income = groupIncome(linesOf(room, of));
  return {
    season: of,
    currency,
    own,
    figures,
    billed: bills.length,
    services: SERVICES.map((code) =>
      answerOf(room, services[code], { figures, measured: measured[code], fee: fees[code] }),
    ),
    species: speciesMargins(room, animals),
    workCost: costByWork(animals),
    income,
    fat: {
      usedGrams: spent.usedGrams,
      unpricedGrams: spent.unpricedGrams,
      cost: spent.cost,
      chargedMinor: income.find(({ code }) => code === 'fat')?.minor ?? 0,
    },
    quotes: missedQuotes(room, bills),
  };
}
