/**
 * What each call takes at most, and how long it may hold the desk in the largest book (20 seasons × 5,000 animals × 12
 * weighings). The schemas enforce the first two; `limits.test.ts` holds them against this table. `npm run limits` measures the third.
 */
import type { CallName } from '../../../src/bridge/contract.ts';
import { MAX_PRIMALS, QUESTIONS } from '../../../src/desk/input/input.ts';

export interface Limit {
  /** Items of the longest list, or entries of the longest record; 0 where there is none. */
  list: number;
  /** UTF-16 units of the longest text. */
  text: number;
  /** Longest time for which no other call is answered, ms. */
  heldMs: number;
}

/**
 * What a hand notices: every call gives way to the others within this. Where the worker reads or writes the whole file
 * meanwhile (backups, imports), up to 321 ms were measured on two cores that five other programs kept busy, 21 to 79 ms else.
 */
const HELD_MS = 100;
/**
 * While another book is opened in place of this one there is none that another call could ask. Opening a book reads all of
 * it once.
 */
const OPENS_A_BOOK = 10_000;

/**
 * Going back to a backup unlocks or copies it, looks through all of it, puts it in the book's place and opens it. Measured: 6.4 to
 * 10.2 s for a book of 500 MB.
 */
const RESTORES_A_BOOK = 20_000;
/**
 * After a start, or after another program wrote, what the running season's animals taught is learned again in one step, and
 * what fat tests taught in another. Measured for 5,000 animals: 78 to 115 ms each, some 2 ms once it is at hand.
 */
const LEARNS = 150;

/**
 * The first row of a table of the archive. Measured: 68 ms, and 152 to 179 ms soon after a large file was brought in and undone;
 * why it is more then is not found yet.
 */
const FIRST_ROW = 250;

const limit = (list: number, text: number, heldMs = HELD_MS): Limit => ({ list, text, heldMs });

/** Calls that `npm run limits` does not measure, each with the reason. */
export const NOT_MEASURED: Readonly<Partial<Record<CallName, string>>> = {
  'shop.keepRecords':
    'answers only while the book is shut because another program built into it; then nothing else is asked',
  'shop.beginAnew': 'answers only while the book is shut; then nothing else is asked',
};

export const LIMITS: Readonly<Record<CallName, Limit>> = {
  'shop.get': limit(0, 0),
  'shop.setUp': limit(0, 120),
  'shop.saveSettings': limit(40, 3000),
  'shop.addStaff': limit(0, 80),
  'shop.trustClock': limit(0, 6),
  'shop.openDemo': limit(0, 0, OPENS_A_BOOK),
  'shop.leaveDemo': limit(0, 0, OPENS_A_BOOK),
  'shop.backUp': limit(0, 0),
  'shop.renewBackups': limit(0, 6),
  'shop.listBackups': limit(0, 1000),
  'shop.tryBackup': limit(0, 4096),
  'shop.restore': limit(0, 4096, RESTORES_A_BOOK),
  'shop.setLock': limit(0, 200),
  'shop.tryAgain': limit(0, 0, OPENS_A_BOOK),
  'shop.keepRecords': limit(0, 0, OPENS_A_BOOK),
  'shop.beginAnew': limit(0, 0, OPENS_A_BOOK),
  'stations.get': limit(0, 0),
  'stations.listNetworks': limit(0, 0),
  'stations.setUp': limit(0, 60),
  'stations.newCode': limit(0, 0),
  'stations.allow': limit(0, 40),
  'stations.refuse': limit(0, 40),
  'stations.rename': limit(0, 40),
  'stations.pause': limit(0, 300),
  'stations.resume': limit(0, 300),
  'stations.remove': limit(0, 300),
  'stations.setPin': limit(0, 8),
  'stations.clearPin': limit(0, 6),
  'hunters.find': limit(0, 200),
  'hunters.save': limit(0, 500),
  'hunters.removeDetails': limit(0, 300),
  'intake.takeIn': limit(100, 2000),
  'rail.get': limit(0, 0),
  'coolers.list': limit(0, 0),
  'coolers.save': limit(0, 60),
  'coolers.archive': limit(0, 6),
  'coolers.restore': limit(0, 6),
  'coolers.logTemperature': limit(0, 20),
  'coolers.voidTemperature': limit(0, 300),
  'coolers.restoreTemperature': limit(0, 6),
  'coolers.previewLog': limit(0, 0),
  'coolers.importLog': limit(QUESTIONS.length, 6),
  'coolers.undoImport': limit(0, 6),
  'coolers.listLogs': limit(0, 0),
  'coolers.getRecord': limit(0, 10),
  'animals.get': limit(0, 20, LEARNS),
  'animals.find': limit(0, 200),
  'animals.setStage': limit(0, 300),
  'animals.setDetail': limit(0, 6),
  'animals.edit': limit(MAX_PRIMALS, 500),
  'animals.reopen': limit(0, 300),
  'animals.getHistory': limit(0, 0),
  'animals.saveOrders': limit(30, 2000),
  'animals.getDropOff': limit(0, 0),
  'animals.getLastOrders': limit(0, 40),
  'animals.hang': limit(500, 40),
  'animals.hold': limit(0, 200),
  'animals.endHold': limit(0, 500),
  'animals.testResult': limit(QUESTIONS.length, 500),
  'animals.cancel': limit(0, 300),
  'animals.noteAffected': limit(0, 300),
  'animals.voidAffected': limit(0, 300),
  'animals.dispose': limit(QUESTIONS.length, 300),
  'donations.add': limit(QUESTIONS.length, 300),
  'donations.void': limit(0, 300),
  'donations.list': limit(0, 0),
  'unprocessed.add': limit(0, 300),
  'unprocessed.void': limit(0, 300),
  'pickup.saveNotice': limit(QUESTIONS.length, 300),
  'pickup.voidNotice': limit(0, 300),
  'shares.save': limit(12, 500),
  'shares.release': limit(100, 200),
  'shares.voidRelease': limit(0, 300),
  'belongings.list': limit(0, 0),
  'belongings.add': limit(0, 300),
  'belongings.void': limit(0, 300),
  'belongings.end': limit(QUESTIONS.length, 300),
  'belongings.voidEnd': limit(0, 300),
  'table.weigh': limit(0, 500),
  'table.correct': limit(0, 300),
  'table.void': limit(0, 300),
  'table.move': limit(0, 300),
  'table.restore': limit(0, 6),
  'table.stateNone': limit(0, 6),
  'table.voidNone': limit(0, 300),
  'grinder.get': limit(0, 0, LEARNS),
  'grinder.getBatch': limit(0, 0, LEARNS),
  'grinder.plan': limit(100, 40, LEARNS),
  'grinder.start': limit(100, 60),
  'grinder.weighIn': limit(0, 60),
  'grinder.pass': limit(0, 40),
  'grinder.pack': limit(0, 300),
  'grinder.fatTest': limit(0, 80),
  'grinder.finish': limit(0, 300),
  'grinder.reopen': limit(0, 300),
  'grinder.saveCleaning': limit(0, 300),
  'grinder.voidCleaning': limit(0, 300),
  'fat.listLots': limit(0, 0),
  'fat.receive': limit(QUESTIONS.length, 120),
  'fat.listMovements': limit(0, 0),
  'fat.getNeeds': limit(0, 0, LEARNS),
  'fat.discard': limit(0, 200),
  'fat.count': limit(0, 200),
  'recipes.list': limit(0, 0),
  'recipes.get': limit(0, 0),
  'recipes.check': limit(100, 2000),
  'recipes.save': limit(100, 2000),
  'recipes.archive': limit(0, 6),
  'recipes.restore': limit(0, 6),
  'recipes.addReady': limit(0, 40),
  'recipes.saveIngredient': limit(60, 500),
  'recipes.archiveIngredient': limit(0, 6),
  'recipes.restoreIngredient': limit(0, 6),
  'made.list': limit(0, 0),
  'made.get': limit(0, 0),
  'made.open': limit(60, 6),
  'made.plan': limit(0, 60),
  'made.start': limit(0, 60),
  'made.weigh': limit(0, 60),
  'made.voidWeighed': limit(0, 300),
  'made.stage': limit(0, 60),
  'made.voidStage': limit(0, 300),
  'made.pack': limit(0, 300),
  'made.analyse': limit(0, 80),
  'made.voidAnalysis': limit(0, 300),
  'made.void': limit(0, 300),
  'made.forecast': limit(0, 0),
  'made.losses': limit(0, 0),
  'made.label': limit(0, 0),
  'loads.list': limit(0, 0),
  'loads.get': limit(0, 0),
  'loads.open': limit(30, 60),
  'loads.add': limit(0, 6),
  'loads.remove': limit(0, 300),
  'loads.record': limit(0, 500),
  'loads.close': limit(0, 6),
  'loads.reopen': limit(0, 300),
  'loads.previewLog': limit(0, 0),
  'loads.importLog': limit(0, 40),
  'loads.reading': limit(0, 40),
  'loads.voidLog': limit(0, 300),
  'loads.exclude': limit(0, 300),
  'loads.include': limit(0, 300),
  'loads.readings': limit(0, 0),
  'loads.judge': limit(0, 6),
  'loads.decide': limit(0, 1000),
  'loads.voidDecision': limit(0, 300),
  'quotes.calculate': limit(100, 2000, LEARNS),
  'quotes.save': limit(100, 2000),
  'quotes.list': limit(0, 0),
  'quotes.get': limit(0, 0),
  'bills.get': limit(0, 0),
  'bills.create': limit(0, 6),
  'bills.void': limit(0, 300),
  'bills.pay': limit(0, 60),
  'bills.voidPayment': limit(0, 300),
  'bills.restorePayment': limit(0, 6),
  'bills.restore': limit(0, 6),
  'till.get': limit(0, 10),
  'till.setFloat': limit(0, 30),
  'till.close': limit(200, 300),
  'till.void': limit(0, 300),
  'till.listOwed': limit(0, 0),
  'till.getStatement': limit(0, 0),
  'till.saveReminder': limit(0, 500),
  'till.exportJournal': limit(0, 10),
  'bills.adjust': limit(0, 200),
  'bills.voidAdjustment': limit(0, 300),
  'bills.setExtras': limit(30, 40),
  'bills.getHours': limit(0, 0),
  'bills.addHours': limit(0, 40),
  'bills.voidHours': limit(0, 300),
  'prices.get': limit(0, 0),
  'prices.save': limit(200, 120),
  'pickup.get': limit(0, 0),
  'pickup.saveNote': limit(0, 500),
  'pickup.release': limit(100, 500),
  'shelf.get': limit(0, 0),
  'species.save': limit(100, 60),
  'species.archive': limit(0, 40),
  'species.restore': limit(0, 40),
  'products.save': limit(0, 300),
  'products.archive': limit(0, 60),
  'products.restore': limit(0, 60),
  'templates.save': limit(30, 2000),
  'templates.archive': limit(0, 60),
  'templates.restore': limit(0, 60),
  'season.getChoices': limit(0, 0),
  'season.yields': limit(0, 60),
  'season.pounds': limit(0, 60, LEARNS),
  'season.compare': limit(0, 60),
  'season.drilldown': limit(0, 60),
  'season.flow': limit(0, 60),
  'season.fat': limit(0, 60, LEARNS),
  'season.check': limit(0, 60, LEARNS),
  'costing.get': limit(0, 0),
  'costing.save': limit(0, 30),
  'costing.tryPrices': limit(200, 120),
  'records.list': limit(0, 200),
  'records.check': limit(0, 0),
  'import.begin': limit(0, 255),
  'import.addPiece': limit(0, 700_000),
  'import.preview': limit(1000, 200),
  'import.run': limit(1000, 200),
  'import.list': limit(0, 0),
  'import.undo': limit(0, 6),
  'export.create': limit(0, 0, FIRST_ROW),
  'export.createForHunter': limit(0, 0),
  'export.getPiece': limit(0, 0),
  'import.book': limit(0, 6),
};
