/** Calls that only read: what they say must be what the model knows, and none may break whatever the clock shows. */
import type { CallName } from '../../../src/bridge/contract.ts';
import { act, because, type Act, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import { type Shop } from '../shop.ts';
import type { Animal } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { lookAtMoney, ids, same } from './money-look.ts';

const someAnimal = (shop: Shop, dice: Dice): Animal => dice.mostly(shop.book.animals, [NOBODY]) ?? NOBODY;

const LOOKS: readonly ((shop: Shop, dice: Dice) => Act)[] = [
  (shop, dice) => lookAtMoney(shop, someAnimal(shop, dice)),
  (shop) => act('rail.get', {}, {
    done({ hooks, ready, counts }) {
      const at = (stage: string) => shop.book.animals.filter((one) => one.stage === stage);
      same('on the rail', ids(hooks), ids(shop.inShop.filter(({ stage }) => stage !== 'ready')));
      same('ready', ids(ready), ids(at('ready')));
      same('hanging or on the table', counts.onRail, at('hanging').length + at('cutting').length);
      same('held', ids(hooks.filter(({ hold }) => hold !== null)), ids(shop.inShop.filter((one) => one.stage !== 'ready' && shop.held(one) !== 'free')));
    },
  }),
  (shop) => act('pickup.get', {}, {
    done(rows) {
      same('waiting for pickup', ids(rows), ids(shop.book.animals.filter(({ stage }) => stage === 'ready')));
      for (const row of rows) {
        const bill = shop.bill(row.id);
        same(`due of ${row.ticket}`, row.dueMinor, bill ? bill.total - shop.paid(row.id) : 0);
        const animal = shop.animal(row.id) as Animal;
        same(`waits of ${row.ticket}`, row.waitsFor.length > 0, shop.pooledOff(animal).length > 0);
      }
    },
  }),
  (shop) => act('fat.listLots', { usedUp: true }, {
    done(rows) {
      same('lots', ids(rows), ids(shop.book.lots));
      for (const row of rows) {
        const left = Math.max(0, shop.lot(row.id)?.left ?? 0);
        if (Math.abs(row.leftGrams - left) > 0.05) throw new Error(`lot ${row.id}: ${row.leftGrams} g left, the model ${left} g`);
      }
    },
  }),
  (shop) => act('grinder.get', {}, {
    done({ open, waiting }) {
      same('open batches', ids(open), ids(shop.book.batches.filter(({ done }) => !done)));
      for (const row of waiting)
        if (Math.abs(row.trimLeftGrams - shop.trimLeft(row.id)) > 0.05) throw new Error(`trim left of ${row.ticket}: ${row.trimLeftGrams} g`);
    },
  }),
  (shop, dice) => {
    const batch = dice.mostly(shop.book.batches, []);
    return act('grinder.getBatch', { id: batch?.id ?? 9999 }, {
      refuse: because([!batch, 'batch.unknown']),
      done({ inGrams, outGrams, owners, packages }) {
        if (!batch) return;
        if (Math.abs(inGrams - shop.batchIn(batch.id)) > 0.05 || Math.abs(outGrams - shop.batchOut(batch.id)) > 0.05)
          throw new Error(`${batch.name}: ${inGrams} g in, ${outGrams} g out; the model ${shop.batchIn(batch.id)} g in, ${shop.batchOut(batch.id)} g out`);
        const shared = owners.reduce((sum, one) => sum + one.packages, 0);
        const lean = owners.some(({ leanGrams }) => leanGrams > 0);
        if (lean) same('packages shared out', shared, packages.reduce((sum, { count }) => sum + count, 0));
      },
    });
  },
  (shop) => act('records.check', {}, {
    done({ seasons }) {
      const given = shop.book.animals.filter(({ formerTickets }) => formerTickets.length > 0).length === 0;
      if (given) same('gaps in the tickets', seasons.flatMap(({ gaps }) => gaps), []);
      same('entries', seasons.reduce((sum, { entries }) => sum + entries, 0), shop.book.animals.length);
    },
  }),
  (shop) => act('shop.get', {}, {
    done({ today, season, settings }) {
      same('today', today, shop.today);
      same('season', season, shop.season);
      const { unit, currency, zone, seasonStartsMonth, cutWhileHeld, detailEvery, retentionYears } = settings;
      same('settings', { unit, currency, zone, seasonStartsMonth, cutWhileHeld, detailEvery, retentionYears }, shop.book.settings);
    },
  }),
  (shop, dice) => {
    const animal = someAnimal(shop, dice);
    return act('animals.find', { text: dice.onceIn(2) ? 'dana' : (animal.ticket ?? '26-9999') }, {
      done(rows) { if (animal !== NOBODY && rows.length === 1 && rows[0]?.ticket === animal.ticket) same('found', rows[0].stage, animal.stage); },
    });
  },
  (shop, dice) => act('animals.getHistory', { id: someAnimal(shop, dice).id }, { refuse: shop.book.animals.length === 0 ? ['animal.unknown'] : [], may: ['animal.unknown'] }),
  (shop, dice) => act('hunters.find', { text: dice.pick(['', 'dana', '555']) }, {
    done(rows) { if (rows.some(({ id }) => !shop.book.hunters.some((one) => one.id === id))) throw new Error('a hunter that nobody wrote in'); },
  }),
  (shop, dice) => {
    const hunter = dice.mostly(shop.book.hunters, []);
    return act('animals.getLastOrders', { hunterId: hunter?.id ?? 9999, species: 'elk' }, { refuse: because([!hunter, 'hunter.unknown']) });
  },
  (shop) => act('records.list', {}, {
    done(rows) { same('records of the season', ids(rows), ids(shop.book.animals.filter(({ season }) => season === shop.season))); },
  }),
  (shop) => act('quotes.list', {}, { done(rows) { same('quotes', rows.length, Math.min(200, shop.book.quotes.length)); } }),
  (shop, dice) => {
    const quote = dice.mostly(shop.book.quotes, []);
    return act('quotes.get', { id: quote?.id ?? 9999 }, { refuse: because([!quote, 'quote.unknown']) });
  },
  (shop, dice) => {
    const lot = dice.mostly(shop.book.lots, []);
    return act('fat.listMovements', { lotId: lot?.id ?? 9999 }, {
      refuse: because([!lot, 'fat.lot-unknown']),
      done(rows) {
        const left = rows.at(-1)?.leftGrams ?? 0;
        if (Math.abs(left - Math.max(0, lot?.left ?? 0)) > 0.05) throw new Error(`${left} g left by its moves, the model ${lot?.left} g`);
      },
    });
  },
  (shop, dice) => {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), []);
    return act('coolers.listLogs', { coolerId: cooler?.id ?? 9999 });
  },
  (shop, dice) => {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), []);
    return act('coolers.getRecord', { coolerId: cooler?.id ?? 9999, from: '2026-10-01', to: '2026-10-31' }, { refuse: because([!cooler, 'cooler.unknown']) });
  },
  (shop, dice) => {
    const animals = shop.inShop.filter(({ id }) => shop.trimLeft(id) > 100);
    const animal = dice.mostly(animals, [NOBODY]) ?? NOBODY;
    return act('grinder.plan', { animals: [{ id: animal.id }], fat: 'pork-back-fat', targetFat: 0.1 }, { refuse: because([animal === NOBODY, 'animal.unknown']) });
  },
  (_, dice) => act('costing.tryPrices', { lines: dice.onceIn(2) ? [] : [{
    code: 'a', label: 'a', basis: 'animal', amountMinor: 100, rate: null, unit: null, species: null, brought: null, fatSource: null, taxRate: 0,
  }] }),
]; // prettier-ignore

/** Read by many screens; nothing is said of their figures here, only that they answer. */
const PLAIN = [
  'coolers.list', 'costing.get', 'fat.getNeeds', 'prices.get', 'season.drilldown', 'season.check', 'season.getChoices', 'season.fat', 'season.flow',
  'season.pounds', 'season.yields', 'shelf.get', 'shop.listBackups', 'import.list',
] as const satisfies readonly CallName[]; // prettier-ignore

export const look: Step = {
  weight: 12,
  calls: [
    'bills.get', 'rail.get', 'pickup.get', 'fat.listLots', 'grinder.get', 'grinder.getBatch', 'records.check', 'shop.get', 'animals.find',
    'animals.getHistory', 'hunters.find', 'animals.getLastOrders', 'records.list', 'quotes.list', 'quotes.get', 'fat.listMovements', 'coolers.getRecord', 'coolers.listLogs',
    'grinder.plan', 'costing.tryPrices',
  ],
  draw: (shop, dice) => dice.pick(LOOKS)(shop, dice),
}; // prettier-ignore

export const openAnimal: Step = {
  weight: 1,
  calls: ['animals.get'],
  draw(shop, dice) {
    const animal = someAnimal(shop, dice);
    const byTicket = dice.onceIn(2);
    return act('animals.get', byTicket ? { ticket: animal.ticket } : { id: animal.id }, {
      refuse: because([animal === NOBODY, byTicket ? 'ticket.unknown' : 'animal.unknown']),
      done(page) {
        same('ticket', page.ticket, animal.ticket);
        same('stage', page.stage, animal.stage);
        same('weighings', ids(page.weighings), ids(shop.book.weighings.filter((one) => one.animal === animal.id)));
      },
    });
  },
}; // prettier-ignore

export const plainLook: Step = {
  weight: 2,
  calls: [...PLAIN, 'season.compare'],
  draw: (_, dice) =>
    dice.onceIn(PLAIN.length + 1)
      ? act('season.compare', { a: {}, b: {} })
      : act(dice.pick(PLAIN), {} as never),
};
