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
}

type Reading = (desk: BenchDesk, asked: Asked) => Promise<unknown>;

const SEASON = 2026;

/** In words, the call in front where it is asked in one way only. */
export const READINGS: Readonly<Record<string, { call: CallName; ask: Reading }>> = {
  'look at the shop': { call: 'shop.look', ask: (desk) => desk.call('shop.look', {}) },
  'look at the rail': { call: 'rail.look', ask: (desk) => desk.call('rail.look', {}) },
  'look at the coolers': { call: 'coolers.look', ask: (desk) => desk.call('coolers.look', {}) },
  'list a cooler’s files': {
    call: 'coolers.logs',
    ask: (desk, { coolerId }) => desk.call('coolers.logs', { coolerId }),
  },
  'look at a cooler’s month': {
    call: 'coolers.record',
    ask: (desk, { coolerId }) =>
      desk.call('coolers.record', { coolerId, from: '2026-11-01', to: '2026-11-30' }),
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
    call: 'animals.open',
    ask: (desk, { animalId }) => desk.call('animals.open', { id: animalId }),
  },
  'look at an animal’s history': {
    call: 'animals.history',
    ask: (desk, { animalId }) => desk.call('animals.history', { id: animalId }),
  },
  'look for a hunter’s last orders': {
    call: 'animals.lastOrders',
    ask: (desk, { hunterId }) => desk.call('animals.lastOrders', { hunterId, species: 'elk' }),
  },
  'look at the grinder': { call: 'grinder.look', ask: (desk) => desk.call('grinder.look', {}) },
  'open a batch': {
    call: 'grinder.open',
    ask: (desk, { batchId }) => desk.call('grinder.open', { id: batchId }),
  },
  'plan a batch': {
    call: 'grinder.plan',
    ask: (desk, { trimId }) =>
      desk.call('grinder.plan', { animals: [{ id: trimId }], fat: 'pork-back-fat', targetFat: 0.15 }),
  },
  'look at the fat': { call: 'fat.lots', ask: (desk) => desk.call('fat.lots', { usedUp: false }) },
  'look at a batch’s fat': {
    call: 'fat.lots',
    ask: (desk, { batchId }) => desk.call('fat.lots', { usedUp: false, batchId }),
  },
  'look at a lot’s movements': {
    call: 'fat.moves',
    ask: (desk, { lotId }) => desk.call('fat.moves', { lotId }),
  },
  'look at the fat needed': { call: 'fat.needs', ask: (desk) => desk.call('fat.needs', {}) },
  quote: { call: 'quote.work', ask: (desk) => desk.call('quote.work', QUOTE) },
  'list the quotes': { call: 'quote.list', ask: (desk) => desk.call('quote.list', {}) },
  'open a quote': {
    call: 'quote.open',
    ask: (desk, { quoteId }) => desk.call('quote.open', { id: quoteId }),
  },
  'look at a bill': {
    call: 'bills.look',
    ask: (desk, { animalId }) => desk.call('bills.look', { animalId }),
  },
  'look at the prices': { call: 'prices.look', ask: (desk) => desk.call('prices.look', {}) },
  'look at pick-up': { call: 'pickup.look', ask: (desk) => desk.call('pickup.look', {}) },
  'look at the shelf': { call: 'shelf.look', ask: (desk) => desk.call('shelf.look', {}) },
  'look at a season’s records': {
    call: 'books.records',
    ask: (desk) => desk.call('books.records', { season: SEASON }),
  },
  'list what was brought in': { call: 'bring.list', ask: (desk) => desk.call('bring.list', {}) },
  'look at the season’s choices': { call: 'season.choices', ask: (desk) => desk.call('season.choices', {}) },
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
    call: 'season.behind',
    ask: (desk) => desk.call('season.behind', { season: SEASON, species: 'elk', order: 'takeHome' }),
  },
  'open season.fat': { call: 'season.fat', ask: (desk) => desk.call('season.fat', {}) },
  'open season.check': { call: 'season.check', ask: (desk) => desk.call('season.check', {}) },
  'open season.flow': { call: 'season.flow', ask: (desk) => desk.call('season.flow', {}) },
  'open costing.look': { call: 'costing.look', ask: (desk) => desk.call('costing.look', {}) },
  'try other prices': {
    call: 'costing.tryPrices',
    ask: async (desk) => {
      const { lines, taxRule } = await desk.call('prices.look', {});
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
  'coolers.lookLog': 'goes over a file',
  'books.check': 'counts every ticket of every season, for a line that comes when it is ready',
  'bring.begin': 'takes a file',
  'bring.piece': 'takes a file',
  'bring.look': 'goes over a file',
  'takeout.pack': 'writes the whole book out',
  'takeout.packHunter': 'writes a file',
  'takeout.piece': 'hands a file over',
};

/** Something of each kind that the newest season has. @throws Error when the book lacks one */
export async function askedIn(desk: BenchDesk): Promise<Asked> {
  const animal = await desk.call('animals.open', { ticket: '26-0147' });
  const grinder = await desk.call('grinder.look', {});
  const [cooler] = await desk.call('coolers.look', {});
  const [quote] = await desk.call('quote.list', {});
  const [batch, lot, trim] = [grinder.recent[0], grinder.fat[0], grinder.waiting[0]];
  if (!batch || !lot || !trim || !cooler || !quote) throw new Error('The book has nothing to ask about');
  return {
    animalId: animal.id,
    hunterId: animal.hunter.id,
    batchId: batch.id,
    coolerId: cooler.id,
    lotId: lot.id,
    quoteId: quote.id,
    trimId: trim.id,
  };
}
