/** The actual cost per pound: the shop's running costs and weighings, compared with its prices. */
import * as v from 'valibot';
import { fatSpent } from './fat.ts';
import { ASSUMED, figuresOf, figuresTyped, saveFigures, readFigures, SERVICES } from './figures.ts';
import { groupIncome } from './income.ts';
import { madeCosts } from './made.ts';
import { measure } from './measured.ts';
import { answerOf, feesOf, serviceOf } from './services.ts';
import { costByWork, costedAnimals, speciesMargins } from './species.ts';
import { missedQuotes } from './missed-quotes.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { repricedBills } from './repriced-bills.ts';
import type { SeasonBillLine } from '../../book/sums/season-money.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { mapInSlices, runInSlices } from '../session/slices.ts';
import { billedAnimals } from './season-bills.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { CostFigures, CostingView } from '../contract/contract.ts';

const season = v.optional(seasonYear);

/** The current season by default. */
export const get = read(v.object({ season }), async (session, input): Promise<CostingView> => {
  const of = input.season ?? session.season();
  await lookUp(session, of);
  return costingLook(session, of);
});

/** Fills the caches in slices for the first request of a season: its rows and its repriced bills. */
async function lookUp(session: Session, of: number): Promise<void> {
  const { seasonMoney } = session.book;
  await runInSlices([
    () => session.book.seasonRows(of),
    () => seasonMoney.packed(of),
    () => seasonMoney.bills(of),
    () => linesOf(session, of),
    () => session.book.seasonCheck.quoted(of),
  ]);
  const seenBy = repricedBills(session, pricesInForce(session));
  await mapInSlices(billedAnimals(session, of), ({ amounts }) => seenBy(amounts).charged());
}

function linesOf(session: Session, of: number): readonly SeasonBillLine[] {
  const { currency } = session.settings;
  return session.cached('money', of, `bill lines in ${currency}`, () =>
    session.book.seasonMoney.lines(of, currency),
  );
}

/** Stores the shop's running costs as typed. @throws as `readFigures` */
export const save = write(figuresTyped, (session, input): { figures: CostFigures } => {
  const figures = readFigures(session, input);
  saveFigures(session, figures, input.by);
  return { figures };
});

function costingLook(session: Session, of: number): CostingView {
  const { own, figures } = figuresOf(session);
  const used = session.book.seasonMoney.fat(of);
  const measured = measure(session, of, used);
  const services = {
    cutting: serviceOf('cutting', figures, measured.cutting),
    grinding: serviceOf('grinding', figures, measured.grinding),
    products: serviceOf('products', figures, measured.products),
  };
  const bills = billedAnimals(session, of);
  const fees = feesOf(session, { season: of, bills, used }, services);
  const spent = fatSpent(used);
  const fatPerKg = spent.perKg ?? ASSUMED.fatPerKg;
  const { ingredientsPerKg } = figures;
  const animals = costedAnimals(session, bills, services, { fatPerKg, ingredientsPerKg });
  const { currency } = session.settings;
  const income = groupIncome(linesOf(session, of));
  const chargedMinor = income.find(({ code }) => code === 'fat')?.minor ?? 0;
  return {
    season: of,
    currency,
    own,
    figures,
    billed: bills.length,
    services: SERVICES.map((code) =>
      answerOf(session, services[code], { figures, measured: measured[code], fee: fees[code] }),
    ),
    made: madeCosts(session, of, {
      figures,
      bills,
      used,
      fatPerKg,
      chargedPerKg: spent.usedGrams > 0 ? (chargedMinor * 1000) / spent.usedGrams : 0,
    }),
    species: speciesMargins(session, animals),
    workCost: costByWork(animals),
    income,
    fat: {
      usedGrams: spent.usedGrams,
      unpricedGrams: spent.unpricedGrams,
      cost: spent.cost,
      chargedMinor,
    },
    quotes: missedQuotes(session, of, bills),
  };
}
