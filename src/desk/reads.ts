/** The topics that each query reads. A window repeats a query only when one of its topics changed. */
import type { ChangesSince } from '../book/changes/change-log.ts';
import type { Topic } from '../book/changes/topics.ts';
import type { procedures } from './procedures.ts';

type Procedures = typeof procedures;
export type AskName = {
  [N in keyof Procedures]: Procedures[N]['kind'] extends 'read' | 'door' ? N : never;
}[keyof Procedures];

/** Topics that a call always reads; and topics of which it reads only the requested animal. */
interface Reads {
  all: readonly Topic[];
  ofAnimal?: readonly Topic[];
}

/** Topics behind nearly every answer: names of species and products, units, money, the shop's rules, other shops' lessons. */
const SHOP: readonly Topic[] = ['settings', 'species', 'product', 'lesson'];
const reads = (...topics: Topic[]): Reads => ({ all: [...SHOP, ...topics] });
const readsOfAnimal = (ofAnimal: readonly Topic[], ...topics: Topic[]): Reads => ({
  all: [...SHOP, ...topics],
  ofAnimal,
});
/** Queries that depend only on their input or on a file. No change of the book repeats them. */
const NOTHING: Reads = { all: [] };
/** Views of a season read its animals, finished or not, and who brought them. */
const SEASON: readonly Topic[] = ['finished', 'hook', 'hunter'];

export const READS: Readonly<Record<AskName, Reads>> = {
  'shop.get': reads('cooler', 'price', 'recipe', 'trail', 'files'),
  'shop.listBackups': reads('hunter', 'files'),
  'shop.tryBackup': NOTHING,
  'shop.restore': NOTHING,
  'shop.tryAgain': NOTHING,
  'shop.keepRecords': NOTHING,
  'shop.beginAnew': NOTHING,
  'ledger.get': reads('files'),
  'ledger.tryIt': NOTHING,
  'ledger.prepare': NOTHING,
  // They are of the ledger, and asked again by hand.
  'ledger.getShops': NOTHING,
  'ledger.getShopRows': NOTHING,
  'ledger.readAs': NOTHING,
  'ledger.books': NOTHING,
  'ledger.rebuild': NOTHING,
  'ledger.rebuilding': NOTHING,
  'ledger.cancelRebuild': NOTHING,
  'ledger.openRebuilt': NOTHING,
  'stations.get': reads('station'),
  'stations.listNetworks': NOTHING,
  'hunters.find': reads('hunter', 'hook'),
  'drafts.begin': reads('price'),
  'drafts.list': reads('draft', 'hunter', 'hook'),
  'drafts.getSigned': reads('draft', 'hunter'),
  'slips.find': reads('draft', 'hunter', 'hook'),
  'rail.get': reads('hook', 'order', 'hunter', 'cooler', 'grind'),
  'coolers.list': reads('cooler', 'hook', 'hunter'),
  'coolers.previewLog': NOTHING,
  'coolers.listLogs': reads('cooler'),
  'coolers.getRecord': reads('cooler'),
  'animals.get': readsOfAnimal(
    ['animal', 'money'],
    'finished',
    'hook',
    'hunter',
    'cooler',
    'grind',
    'fat',
    'price',
    'quote',
    'station',
  ),
  'donations.list': reads('animal', 'money', 'hunter'),
  'belongings.list': readsOfAnimal(['belonging'], 'hunter'),
  'photos.store': NOTHING,
  'photos.list': readsOfAnimal(['photo'], 'station'),
  'photos.read': reads('photo'),
  'photos.check': NOTHING,
  'animals.find': reads('hook', 'hunter'),
  'animals.getHistory': readsOfAnimal(['animal', 'money', 'photo'], 'hunter', 'cooler', 'grind', 'trail'),
  'animals.getDropOff': readsOfAnimal(['animal', 'money'], 'price', 'grind', 'fat', 'quote', 'finished'),
  'animals.getLastOrders': reads('hook', 'order', 'hunter'),
  'grinder.get': reads('animal', 'grind', 'fat', 'hunter', 'recipe', 'product'),
  'grinder.getBatch': reads('animal', 'grind', 'fat', 'hunter', 'fat test', 'recipe', 'product', 'made'),
  'grinder.plan': reads('animal', 'grind', 'fat', 'fat test', 'recipe'),
  'fat.listLots': reads('fat', 'grind'),
  'fat.listMovements': reads('fat', 'grind', 'hunter'),
  'fat.getNeeds': reads('animal', 'grind', 'fat', 'fat test', 'made', 'recipe'),
  'recipes.list': reads('recipe'),
  'recipes.get': reads('recipe'),
  'recipes.check': reads('recipe'),
  'made.list': reads('made', 'load', 'grind', 'recipe', 'animal', 'fat test'),
  'made.get': reads('made', 'load', 'grind', 'recipe', 'animal', 'hunter', 'fat', 'fat test'),
  'made.plan': reads('made', 'grind', 'recipe', 'animal', 'fat', 'fat test'),
  'made.forecast': reads('made', 'grind', 'recipe'),
  'made.losses': reads('made', 'grind', 'recipe'),
  'made.label': reads('made', 'load', 'grind', 'recipe', 'animal', 'hunter'),
  'loads.list': reads('made', 'load', 'grind', 'recipe', 'animal'),
  'loads.get': reads('made', 'load', 'grind', 'recipe', 'animal'),
  'loads.previewLog': NOTHING,
  'loads.readings': reads('load'),
  'quotes.calculate': reads('finished', 'price', 'fat', 'fat test', 'hunter', 'made', 'grind', 'recipe'),
  'quotes.list': reads('quote', 'hook', 'money', 'hunter'),
  'quotes.get': reads('quote', 'hook', 'price', 'hunter'),
  'bills.get': readsOfAnimal(['animal', 'money'], 'price', 'hunter', 'grind', 'fat', 'quote', 'finished'),
  'till.get': reads('till', 'money', 'hunter', 'hook'),
  'till.listOwed': reads('money', 'hook', 'animal', 'hunter'),
  'till.getStatement': reads('money', 'hook', 'hunter'),
  'till.exportJournal': NOTHING,
  'bills.getHours': readsOfAnimal(['money'], 'price'),
  'prices.get': reads('price'),
  'pickup.get': reads('hook', 'grind', 'order', 'trail', 'animal', 'money', 'hunter', 'price'),
  'shelf.get': reads('hook', 'grind', 'order', 'price'),
  'season.getChoices': reads(...SEASON),
  'season.yields': reads(...SEASON, 'quote'),
  'season.pounds': reads(...SEASON, 'animal', 'money', 'made', 'recipe'),
  'season.compare': reads(...SEASON),
  'season.drilldown': reads(...SEASON, 'animal', 'money'),
  'season.flow': reads(...SEASON, 'animal', 'cooler'),
  'season.fat': reads(...SEASON, 'animal', 'grind', 'fat', 'fat test'),
  'season.check': reads(...SEASON, 'animal', 'grind', 'made'),
  'costing.get': reads(...SEASON, 'animal', 'money', 'price', 'grind', 'fat', 'quote', 'made', 'recipe'),
  'costing.tryPrices': NOTHING,
  'records.list': reads('hook', 'animal', 'photo', 'grind', 'made', 'load', 'money', 'hunter'),
  'records.check': reads('hook', 'animal', 'hunter'),
  'lessons.get': reads('finished', 'fat test', 'made', 'grind', 'recipe'),
  'import.begin': NOTHING,
  'import.addPiece': NOTHING,
  'import.preview': NOTHING,
  'import.list': reads('import', 'hook', 'animal'),
  'export.create': NOTHING,
  'export.createForHunter': NOTHING,
  'export.getPiece': NOTHING,
};

/** Queries whose answers may have changed. */
export interface Stale {
  asks: AskName[];
  /** Queries about these animals only. */
  ofAnimals: { asks: AskName[]; ids: number[] };
}

/**
 * @param since what changed in the book; null where anything may have
 * @param beside topics of what changed that does not stand in the book
 * @returns null where every answer may have changed
 */
export function staleAfter(since: ChangesSince | null, beside: readonly Topic[]): Stale | null {
  if (!since) return null;
  const changed = [...new Set<Topic>([...since.topics, ...beside])].sort();
  const key = changed.join();
  let asks = asksByTopics.get(key);
  if (!asks) asksByTopics.set(key, (asks = asksOf(changed)));
  return {
    asks: [...asks.asks],
    ofAnimals: { asks: [...asks.ofAnimals], ids: [...since.animals.keys()] },
  };
}

/** By the topics that changed: a shop's writes change a few dozen sets of them. */
const asksByTopics = new Map<string, { asks: readonly AskName[]; ofAnimals: readonly AskName[] }>();

function asksOf(changed: readonly Topic[]): { asks: AskName[]; ofAnimals: AskName[] } {
  const all = Object.entries(READS) as [AskName, Reads][];
  const meets = (topics: readonly Topic[] = []): boolean => topics.some((topic) => changed.includes(topic));
  const asks = all.filter(([, { all: topics }]) => meets(topics)).map(([name]) => name);
  const ofAnimals = all.filter(([name, { ofAnimal }]) => meets(ofAnimal) && !asks.includes(name));
  return { asks, ofAnimals: ofAnimals.map(([name]) => name) };
}
