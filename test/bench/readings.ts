/** Every question that a screen asks while somebody waits, on the newest season of a book, and those that nobody waits for. */
import type { CallInput, CallName } from '../../src/bridge/contract.ts';
import { QUOTE } from './desk-work.ts';
import type { BenchDesk } from './open-desk.ts';

/** What is asked about, the same in a book of any age. */
export interface Asked {
  animalId: number;
  hunterId: number;
  batchId: number;
  coolerId: number;
  lotId: number;
  quoteId: number;
  trimId: number;
  /** The number on a slip for night drop-off. */
  slip: string;
}

type Reading = (desk: BenchDesk, asked: Asked) => Promise<unknown>;

const SEASON = 2026;

/** In words, the call in front where it is asked in one way only. */
export const READINGS: Readonly<Record<string, { call: CallName; ask: Reading }>> = {
  'look at the shop': { call: 'shop.get', ask: (desk) => desk.call('shop.get', {}) },
  'look at the stations': { call: 'stations.get', ask: (desk) => desk.call('stations.get', {}) },
  'look at the ledger': { call: 'ledger.get', ask: (desk) => desk.call('ledger.get', {}) },
  'look at the networks': {
    call: 'stations.listNetworks',
    ask: (desk) => desk.call('stations.listNetworks', {}),
  },
  'begin a hunter’s own check-in': {
    call: 'drafts.begin',
    ask: (desk) => desk.call('drafts.begin', { language: 'es-MX' }),
  },
  'look at the check-ins that wait': { call: 'drafts.list', ask: (desk) => desk.call('drafts.list', {}) },
  'look at the terms that a hunter signed': {
    call: 'drafts.getSigned',
    ask: (desk, { animalId }) => desk.call('drafts.getSigned', { animalId }),
  },
  'find the slip of a night drop-off': {
    call: 'slips.find',
    ask: (desk, { slip }) => desk.call('slips.find', { code: slip }),
  },
  'look at what other shops have learned': {
    call: 'lessons.get',
    ask: (desk) => desk.call('lessons.get', {}),
  },
  'look at the rail': { call: 'rail.get', ask: (desk) => desk.call('rail.get', {}) },
  'look at the coolers': { call: 'coolers.list', ask: (desk) => desk.call('coolers.list', {}) },
  'list a cooler’s files': {
    call: 'coolers.listLogs',
    ask: (desk, { coolerId }) => desk.call('coolers.listLogs', { coolerId }),
  },
  'look at a cooler’s month': {
    call: 'coolers.getRecord',
    ask: (desk, { coolerId }) =>
      desk.call('coolers.getRecord', { coolerId, from: '2026-11-01', to: '2026-11-30' }),
  },
  'find an animal by number': {
    call: 'animals.find',
    ask: (desk) => desk.call('animals.find', { text: '147' }),
  },
  'find an animal by hunter': {
    call: 'animals.find',
    ask: (desk) => desk.call('animals.find', { text: 'dana' }),
  },
  'find a hunter by name': {
    call: 'hunters.find',
    ask: (desk) => desk.call('hunters.find', { text: 'whit' }),
  },
  'find a hunter by the middle of a name': {
    call: 'hunters.find',
    ask: (desk) => desk.call('hunters.find', { text: 'itl' }),
  },
  'find a hunter by whole name': {
    call: 'hunters.find',
    ask: (desk) => desk.call('hunters.find', { text: 'dana whitlock' }),
  },
  'find a hunter by one letter': {
    call: 'hunters.find',
    ask: (desk) => desk.call('hunters.find', { text: 'd' }),
  },
  'find a hunter by phone': {
    call: 'hunters.find',
    ask: (desk) => desk.call('hunters.find', { text: '0142' }),
  },
  'find nobody': { call: 'hunters.find', ask: (desk) => desk.call('hunters.find', { text: 'zqxj' }) },
  'open an animal': {
    call: 'animals.get',
    ask: (desk, { animalId }) => desk.call('animals.get', { id: animalId }),
  },
  'look at an animal’s history': {
    call: 'animals.getHistory',
    ask: (desk, { animalId }) => desk.call('animals.getHistory', { id: animalId }),
  },
  'look for a hunter’s last orders': {
    call: 'animals.getLastOrders',
    ask: (desk, { hunterId }) => desk.call('animals.getLastOrders', { hunterId, species: 'elk' }),
  },
  'look at the grinder': { call: 'grinder.get', ask: (desk) => desk.call('grinder.get', {}) },
  'open a batch': {
    call: 'grinder.getBatch',
    ask: (desk, { batchId }) => desk.call('grinder.getBatch', { id: batchId }),
  },
  'plan a batch': {
    call: 'grinder.plan',
    ask: (desk, { trimId }) =>
      desk.call('grinder.plan', { animals: [{ id: trimId }], fat: 'pork-back-fat', targetFat: 0.15 }),
  },
  'look at the fat': { call: 'fat.listLots', ask: (desk) => desk.call('fat.listLots', { usedUp: false }) },
  'look at a batch’s fat': {
    call: 'fat.listLots',
    ask: (desk, { batchId }) => desk.call('fat.listLots', { usedUp: false, batchId }),
  },
  'look at a lot’s movements': {
    call: 'fat.listMovements',
    ask: (desk, { lotId }) => desk.call('fat.listMovements', { lotId }),
  },
  'look at the fat needed': { call: 'fat.getNeeds', ask: (desk) => desk.call('fat.getNeeds', {}) },
  'look at the recipes': { call: 'recipes.list', ask: (desk) => desk.call('recipes.list', {}) },
  'look at what is made': { call: 'made.list', ask: (desk) => desk.call('made.list', {}) },
  'look at losses': { call: 'made.losses', ask: (desk) => desk.call('made.losses', {}) },
  'look at the smokehouse': { call: 'loads.list', ask: (desk) => desk.call('loads.list', {}) },
  quote: { call: 'quotes.calculate', ask: (desk) => desk.call('quotes.calculate', QUOTE) },
  'list the quotes': { call: 'quotes.list', ask: (desk) => desk.call('quotes.list', {}) },
  'open a quote': {
    call: 'quotes.get',
    ask: (desk, { quoteId }) => desk.call('quotes.get', { id: quoteId }),
  },
  'look at a bill': {
    call: 'bills.get',
    ask: (desk, { animalId }) => desk.call('bills.get', { animalId }),
  },
  'look at the hours of an animal': {
    call: 'bills.getHours',
    ask: (desk, { animalId }) => desk.call('bills.getHours', { animalId }),
  },
  'look at a drop-off receipt': {
    call: 'animals.getDropOff',
    ask: (desk, { animalId }) => desk.call('animals.getDropOff', { animalId }),
  },
  'look at what came with an animal': {
    call: 'belongings.list',
    ask: (desk, { animalId }) => desk.call('belongings.list', { animalId }),
  },
  'look at the photographs of an animal': {
    call: 'photos.list',
    ask: (desk, { animalId }) => desk.call('photos.list', { animalId }),
  },
  'look at donations': { call: 'donations.list', ask: (desk) => desk.call('donations.list', {}) },
  'look at the till': { call: 'till.get', ask: (desk) => desk.call('till.get', {}) },
  'list open balances': { call: 'till.listOwed', ask: (desk) => desk.call('till.listOwed', {}) },
  'look at a statement': {
    call: 'till.getStatement',
    ask: (desk, { hunterId }) => desk.call('till.getStatement', { hunterId }),
  },
  'look at the prices': { call: 'prices.get', ask: (desk) => desk.call('prices.get', {}) },
  'look at pick-up': { call: 'pickup.get', ask: (desk) => desk.call('pickup.get', {}) },
  'look at the shelf': { call: 'shelf.get', ask: (desk) => desk.call('shelf.get', {}) },
  'look at a season’s records': {
    call: 'records.list',
    ask: (desk) => desk.call('records.list', { season: SEASON }),
  },
  'list what was brought in': { call: 'import.list', ask: (desk) => desk.call('import.list', {}) },
  'look at the season’s choices': {
    call: 'season.getChoices',
    ask: (desk) => desk.call('season.getChoices', {}),
  },
  'open season.yields': { call: 'season.yields', ask: (desk) => desk.call('season.yields', {}) },
  'open season.pounds': { call: 'season.pounds', ask: (desk) => desk.call('season.pounds', {}) },
  'open season.compare': {
    call: 'season.compare',
    ask: (desk) =>
      desk.call('season.compare', {
        a: { season: SEASON, species: 'elk' },
        b: { season: SEASON, species: 'mule-deer' },
      }),
  },
  'open season.behind': {
    call: 'season.drilldown',
    ask: (desk) => desk.call('season.drilldown', { season: SEASON, species: 'elk', order: 'takeHome' }),
  },
  'open season.fat': { call: 'season.fat', ask: (desk) => desk.call('season.fat', {}) },
  'open season.check': { call: 'season.check', ask: (desk) => desk.call('season.check', {}) },
  'open season.flow': { call: 'season.flow', ask: (desk) => desk.call('season.flow', {}) },
  'open costing.look': { call: 'costing.get', ask: (desk) => desk.call('costing.get', {}) },
  'try other prices': {
    call: 'costing.tryPrices',
    ask: async (desk) => {
      const { lines, taxRule } = await desk.call('prices.get', {});
      return desk.call('costing.tryPrices', {
        season: SEASON,
        lines: lines as CallInput<'costing.tryPrices'>['lines'],
        taxRule: taxRule as CallInput<'costing.tryPrices'>['taxRule'],
      });
    },
  },
};

/** Nobody waits for these at the counter, or what they take depends on a file and not on the book's age. */
export const NOT_INTERACTIVE: Readonly<Partial<Record<CallName, string>>> = {
  'coolers.previewLog': 'goes over a file',
  'loads.previewLog': 'goes over a file',
  'loads.get': 'goes over the log of one load',
  'loads.readings': 'shows a page of one log',
  'recipes.get': 'reckons with one recipe',
  'recipes.check': 'reckons with one recipe',
  'made.get': 'reckons with one batch',
  'made.plan': 'reckons with one batch',
  'made.label': 'reckons with one batch',
  'made.forecast': 'reckons with one recipe',
  'photos.store': 'takes a file',
  'photos.read': 'hands a file over',
  'photos.check': 'goes over every file',
  'records.check': 'counts every ticket of every season, for a line that comes when it is ready',
  'import.begin': 'takes a file',
  'import.addPiece': 'takes a file',
  'import.preview': 'goes over a file',
  'export.create': 'writes the whole book out',
  'export.createForHunter': 'writes a file',
  'till.exportJournal': 'writes a file',
  'export.getPiece': 'hands a file over',
  'ledger.tryIt': 'waits for a server',
  'ledger.prepare': 'waits for a server',
  'ledger.getShops': 'waits for a server',
  'ledger.getShopRows': 'waits for a server',
  'ledger.readAs': 'waits for a server',
};

/** Something of each kind that the newest season has. @throws Error when the book lacks one */
export async function askedIn(desk: BenchDesk): Promise<Asked> {
  const animal = await desk.call('animals.get', { ticket: '26-0147' });
  const grinder = await desk.call('grinder.get', {});
  const [cooler] = await desk.call('coolers.list', {});
  const [quote] = await desk.call('quotes.list', {});
  const {
    codes: [slip = ''],
  } = await desk.call('slips.add', { count: 1 });
  const [batch, lot, trim] = [grinder.recent[0], grinder.fat[0], grinder.waiting[0]];
  if (!batch || !lot || !trim || !cooler || !quote) throw new Error('The book has nothing to ask about');
  return {
    animalId: animal.id,
    hunterId: animal.hunter.id,
    batchId: batch.id,
    coolerId: cooler.id,
    lotId: lot.id,
    quoteId: quote.id,
    slip,
    trimId: trim.id,
  };
}
