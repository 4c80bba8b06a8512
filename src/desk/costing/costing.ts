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
import { billedAnimals } from './season-bills.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { CostFigures, CostingLook } from '../contract/contract.ts';

const season = v.optional(seasonYear);

/** The running season when none is asked for. */
export const look = read(v.object({ season }), (room, input): CostingLook => {
  return costingLook(room, input.season ?? room.season());
});

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
  const income = groupIncome(
    room.ofSeason('bills', of, `bill lines in ${currency}`, () => room.book.seasonMoney.lines(of, currency)),
  );
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
