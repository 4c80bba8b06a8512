/** What each question reads of the book, so that a window asks it again only when that changed. */
import type { ChangesSince } from '../book/changes/change-log.ts';
import type { Topic } from '../book/changes/topics.ts';
import type { procedures } from './procedures.ts';

type Procedures = typeof procedures;
export type AskName = {
  [N in keyof Procedures]: Procedures[N]['kind'] extends 'read' | 'door' ? N : never;
}[keyof Procedures];

/** Topics that a call reads whatever it is asked; and topics of which it reads the one animal that it is asked about. */
interface Reads {
  all: readonly Topic[];
  ofAnimal?: readonly Topic[];
}

/** What nearly every answer is told in: names of kinds of game and products, units, money, today's rules. */
const SHOP: readonly Topic[] = ['settings', 'species', 'product'];
const reads = (...topics: Topic[]): Reads => ({ all: [...SHOP, ...topics] });
const readsOfAnimal = (ofAnimal: readonly Topic[], ...topics: Topic[]): Reads => ({
  all: [...SHOP, ...topics],
  ofAnimal,
});
/** Answers of what the caller hands over, of a file, or of a piece of one: nobody asks it again because of the book. */
const NOTHING: Reads = { all: [] };
/** Views of a season read its animals, finished or not, and who brought them. */
const SEASON: readonly Topic[] = ['finished', 'hook', 'hunter'];

export const READS: Readonly<Record<AskName, Reads>> = {
  'shop.look': reads('cooler', 'price', 'trail', 'files'),
  'shop.backups': reads('hunter', 'files'),
  'shop.tryBackup': NOTHING,
  'shop.restore': NOTHING,
  'shop.tryAgain': NOTHING,
  'shop.keepRecords': NOTHING,
  'shop.beginAnew': NOTHING,
  'hunters.find': reads('hunter', 'hook'),
  'rail.look': reads('hook', 'hunter', 'cooler', 'grind'),
  'coolers.look': reads('cooler', 'hook', 'hunter'),
  'coolers.lookLog': NOTHING,
  'coolers.logs': reads('cooler'),
  'coolers.record': reads('cooler'),
  'animals.open': readsOfAnimal(
    ['animal', 'money'],
    'finished',
    'hook',
    'hunter',
    'cooler',
    'grind',
    'fat',
    'price',
    'quote',
  ),
  'animals.find': reads('hook', 'hunter'),
  'animals.history': readsOfAnimal(['animal', 'money'], 'hunter', 'cooler', 'grind', 'trail'),
  'animals.lastOrders': reads('hook', 'order', 'hunter'),
  'grinder.look': reads('animal', 'grind', 'fat', 'hunter'),
  'grinder.open': reads('animal', 'grind', 'fat', 'hunter', 'fat test'),
  'grinder.plan': reads('animal', 'grind', 'fat', 'fat test'),
  'fat.lots': reads('fat', 'grind'),
  'fat.moves': reads('fat', 'grind', 'hunter'),
  'fat.needs': reads('animal', 'grind', 'fat', 'fat test'),
  'quote.work': reads('finished', 'price', 'fat', 'fat test', 'hunter'),
  'quote.list': reads('quote', 'hook', 'money', 'hunter'),
  'quote.open': reads('quote', 'hook', 'price', 'hunter'),
  'bills.look': readsOfAnimal(['animal', 'money'], 'price', 'hunter', 'grind', 'fat', 'quote', 'finished'),
  'prices.look': reads('price'),
  'pickup.look': reads('hook', 'animal', 'money', 'hunter', 'price'),
  'shelf.look': reads('hook', 'grind', 'order', 'price'),
  'season.choices': reads(...SEASON),
  'season.yields': reads(...SEASON, 'quote'),
  'season.pounds': reads(...SEASON, 'animal', 'money'),
  'season.compare': reads(...SEASON),
  'season.behind': reads(...SEASON, 'animal', 'money'),
  'season.flow': reads(...SEASON, 'animal', 'cooler'),
  'season.fat': reads(...SEASON, 'animal', 'grind', 'fat', 'fat test'),
  'season.check': reads(...SEASON, 'animal', 'grind'),
  'costing.look': reads(...SEASON, 'animal', 'money', 'price', 'grind', 'fat', 'quote'),
  'costing.tryPrices': NOTHING,
  'books.records': reads('hook', 'animal', 'money', 'hunter'),
  'books.check': reads('hook', 'animal', 'hunter'),
  'bring.begin': NOTHING,
  'bring.piece': NOTHING,
  'bring.look': NOTHING,
  'bring.list': reads('import', 'hook', 'animal'),
  'takeout.pack': NOTHING,
  'takeout.packHunter': NOTHING,
  'takeout.piece': NOTHING,
};

/** Questions whose answers may not be what they were. */
export interface Stale {
  asks: AskName[];
  /** Questions about these animals alone. */
  ofAnimals: { asks: AskName[]; ids: number[] };
}

/**
 * @param since what changed in the book; null where anything may have
 * @param files whether files beside the book changed as well
 * @returns null: any question may have another answer
 */
export function staleAfter(since: ChangesSince | null, files: boolean): Stale | null {
  if (!since) return null;
  const changed = new Set<Topic>(files ? [...since.topics, 'files'] : since.topics);
  const all = Object.entries(READS) as [AskName, Reads][];
  const meets = (topics: readonly Topic[] = []): boolean => topics.some((topic) => changed.has(topic));
  const asks = all.filter(([, { all: topics }]) => meets(topics)).map(([name]) => name);
  const ofAnimals = all.filter(([name, { ofAnimal }]) => meets(ofAnimal) && !asks.includes(name));
  return {
    asks,
    ofAnimals: { asks: ofAnimals.map(([name]) => name), ids: [...since.animals.keys()] },
  };
}
