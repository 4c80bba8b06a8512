/** Which procedures the model drives, and why the others are not driven. */
import type { CallName } from '../../src/bridge/contract.ts';
import { STEPS } from './steps/index.ts';

/** Called before each history begins. */
export const AT_THE_BEGINNING: readonly CallName[] = ['shop.setUp'];

export const DRIVEN: ReadonlySet<CallName> = new Set([
  ...AT_THE_BEGINNING,
  ...[...STEPS.values()].flatMap(({ calls }) => calls),
]);

const NO_PRICING = (test: string): string =>
  `the model takes the total of a bill as the desk says it, and has nothing that this would change: ${test}`;
const NO_TILL = (test: string): string =>
  `the model has payments of an animal and no days of a till, and no other rule of it depends on those: ${test}`;
const NO_UNDO = 'the model has no undo of a void: test/desk/weighing/restore.test.ts';

const NO_STATIONS = 'the model has one window and no other devices: test/desk/stations';
const NO_LEDGER = 'the model has no server, and nothing that it sends changes the book: test/desk/ledger';
const NO_PHOTOS = 'files beside the book, on which no rule depends: test/desk/photos';
const NO_LESSONS = 'first guesses, which the model does not work out: test/desk/lessons/lessons.test.ts';
const NO_DRAFTS =
  'what is typed before there is an animal, and no rule depends on it: test/desk/animals/drafts.test.ts';

/** A procedure that no history reaches, with the reason. */
export const NOT_DRIVEN: Partial<Record<CallName, string>> = {
  'ledger.get': NO_LEDGER,
  'ledger.tryIt': NO_LEDGER,
  'ledger.prepare': NO_LEDGER,
  'ledger.storePassword': NO_LEDGER,
  'ledger.turnOn': NO_LEDGER,
  'ledger.turnOff': NO_LEDGER,
  'ledger.newBranch': NO_LEDGER,
  'ledger.getShops': NO_LEDGER,
  'ledger.getShopRows': NO_LEDGER,
  'ledger.readAs': NO_LEDGER,
  'ledger.lesson': NO_LESSONS,
  'ledger.books': NO_LEDGER,
  'ledger.rebuild': NO_LEDGER,
  'ledger.rebuilding': NO_LEDGER,
  'ledger.cancelRebuild': NO_LEDGER,
  'ledger.openRebuilt': NO_LEDGER,
  'stations.get': NO_STATIONS,
  'stations.listNetworks': NO_STATIONS,
  'stations.setUp': NO_STATIONS,
  'stations.newCode': NO_STATIONS,
  'stations.allow': NO_STATIONS,
  'stations.refuse': NO_STATIONS,
  'stations.rename': NO_STATIONS,
  'stations.pause': NO_STATIONS,
  'stations.resume': NO_STATIONS,
  'stations.remove': NO_STATIONS,
  'stations.decide': NO_STATIONS,
  'stations.setPin': NO_STATIONS,
  'stations.clearPin': NO_STATIONS,
  'drafts.begin': NO_STATIONS,
  'drafts.add': NO_DRAFTS,
  'drafts.list': NO_DRAFTS,
  'drafts.dismiss': NO_DRAFTS,
  'drafts.restore': NO_DRAFTS,
  'drafts.getSigned': NO_DRAFTS,
  'slips.add': NO_DRAFTS,
  'slips.find': NO_DRAFTS,
  'photos.add': NO_PHOTOS,
  'photos.check': NO_PHOTOS,
  'photos.list': NO_PHOTOS,
  'photos.read': NO_PHOTOS,
  'photos.restore': NO_PHOTOS,
  'photos.store': NO_PHOTOS,
  'photos.void': NO_PHOTOS,
  'lessons.get': NO_LESSONS,
  'lessons.give': NO_LESSONS,
  'lessons.take': NO_LESSONS,
  'lessons.use': NO_LESSONS,
  'unprocessed.add':
    'leaves price lines out of bills, which the model does not work out: test/desk/animals/donations.test.ts',
  'unprocessed.void': 'only after unprocessed.add: test/desk/animals/donations.test.ts',
  'animals.getDropOff': 'a paper of what intake keeps: test/desk/animals/drop-off.test.ts',
  'bills.adjust': NO_PRICING('test/desk/bills/charges.test.ts'),
  'bills.voidAdjustment': 'only after bills.adjust: test/desk/bills/charges.test.ts',
  'bills.setExtras': NO_PRICING('test/desk/bills/charges.test.ts'),
  'bills.addHours': NO_PRICING('test/desk/bills/charges.test.ts'),
  'bills.getHours': 'only after bills.addHours: test/desk/bills/charges.test.ts',
  'bills.voidHours': 'only after bills.addHours: test/desk/bills/charges.test.ts',
  'bills.restorePayment': NO_UNDO,
  'bills.restore': 'the model has no undo of a void: test/desk/bills/restore-bill.test.ts',
  'table.restore': NO_UNDO,
  'coolers.restoreTemperature': NO_UNDO,
  'till.get': NO_TILL('test/desk/till/till.test.ts'),
  'till.setFloat': NO_TILL('test/desk/till/till.test.ts'),
  'till.close': NO_TILL('test/desk/till/till.test.ts and, over random days, properties.test.ts'),
  'till.void': 'only after till.close: test/desk/till/till.test.ts',
  'till.exportJournal': 'a file of what the book has, worked out in its test: test/desk/till/journal.test.ts',
  'till.listOwed': 'open balances, which the model does not work out: test/desk/till/owed.test.ts',
  'till.getStatement': 'as till.listOwed: test/desk/till/owed.test.ts',
  'till.saveReminder': 'a note that no rule depends on: test/desk/till/owed.test.ts',
  'animals.noteAffected': 'a note that no rule depends on: test/desk/animals/affected.test.ts',
  'animals.voidAffected': 'as animals.noteAffected',
};
