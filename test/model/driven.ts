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
/** Recipes, batches made by them and loads of the oven: the model's grinder has plain ground meat only. */
const NO_RECIPES = (what: string): string =>
  `the model has no recipes and no ingredients, ${what}: test/desk/smokehouse/recipes.test.ts`;
const NO_MADE = (what: string): string =>
  `the model grinds without recipes, so nothing in it is made by one, ${what}: test/desk/smokehouse/made.test.ts`;
const NO_LOADS = (what: string): string =>
  `the model has no oven and no temperatures inside meat, ${what}: test/desk/smokehouse/loads.test.ts`;
const NO_UNDO = 'the model has no undo of a void: test/desk/weighing/restore.test.ts';

const NO_STATIONS = 'the model has one window and no other devices: test/desk/stations';

/** A procedure that no history reaches, with the reason. */
export const NOT_DRIVEN: Partial<Record<CallName, string>> = {
  'stations.get': NO_STATIONS,
  'stations.setUp': NO_STATIONS,
  'stations.newCode': NO_STATIONS,
  'stations.allow': NO_STATIONS,
  'stations.refuse': NO_STATIONS,
  'stations.rename': NO_STATIONS,
  'stations.pause': NO_STATIONS,
  'stations.resume': NO_STATIONS,
  'stations.remove': NO_STATIONS,
  'stations.setPin': NO_STATIONS,
  'stations.clearPin': NO_STATIONS,
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
  'recipes.list': NO_RECIPES('which this lists'),
  'recipes.get': NO_RECIPES('one of which this shows'),
  'recipes.check': NO_RECIPES('and does not work out what a cure comes to'),
  'recipes.save': NO_RECIPES('one of which this keeps'),
  'recipes.archive': 'only after recipes.save: test/desk/smokehouse/tried.ts',
  'recipes.restore': 'only after recipes.archive: test/desk/smokehouse/tried.ts',
  'recipes.addReady': NO_RECIPES('one of which this takes over'),
  'recipes.saveIngredient': NO_RECIPES('one of which this keeps'),
  'recipes.archiveIngredient': 'only after recipes.saveIngredient: test/desk/smokehouse/tried.ts',
  'recipes.restoreIngredient': 'only after recipes.archiveIngredient: test/desk/smokehouse/tried.ts',
  'made.list': NO_MADE('which this lists'),
  'made.get': 'only after made.open: test/desk/smokehouse/made.test.ts',
  'made.open': NO_MADE('which this begins'),
  'made.plan': 'only after made.open: test/desk/smokehouse/made.test.ts',
  'made.start': 'only after made.open: test/desk/smokehouse/made.test.ts',
  'made.weigh': 'only after made.start: test/desk/smokehouse/made.test.ts',
  'made.voidWeighed': 'only after made.weigh: test/desk/smokehouse/tried.ts',
  'made.stage': 'only after made.start: test/desk/smokehouse/made.test.ts',
  'made.voidStage': 'only after made.stage: test/desk/smokehouse/tried.ts',
  'made.pack':
    'only after made.start, though the pounds that it packs do count for the owners: test/desk/smokehouse/made.test.ts',
  'made.analyse': 'only after made.open: test/desk/smokehouse/made.test.ts',
  'made.voidAnalysis': 'only after made.analyse: test/desk/smokehouse/tried.ts',
  'made.void': 'only after made.open: test/desk/smokehouse/made.test.ts',
  'made.forecast': NO_MADE('and does not work out what is lost on the way'),
  'made.losses': NO_MADE('and does not work out what is lost on the way'),
  'made.label': 'only after made.start: test/desk/smokehouse/made.test.ts',
  'loads.list': NO_LOADS('which this lists'),
  'loads.get': 'only after loads.open: test/desk/smokehouse/loads.test.ts',
  'loads.open': 'only with batches of made.open: test/desk/smokehouse/loads.test.ts',
  'loads.add': 'only after loads.open: test/desk/smokehouse/loads.test.ts',
  'loads.remove': 'only after loads.open: test/desk/smokehouse/loads.test.ts',
  'loads.record': 'only after loads.open: test/desk/smokehouse/loads.test.ts',
  'loads.close': 'only after loads.open: test/desk/smokehouse/loads.test.ts',
  'loads.reopen': 'only after loads.close: test/desk/smokehouse/loads.test.ts',
  'loads.previewLog': NO_LOADS('which a log has'),
  'loads.importLog': NO_LOADS('which a log has'),
  'loads.reading': NO_LOADS('one of which this keeps'),
  'loads.voidLog': 'only after loads.importLog: test/desk/smokehouse/tried.ts',
  'loads.readings': 'only after loads.importLog: test/desk/smokehouse/loads.test.ts',
  'loads.exclude': 'only after loads.importLog: test/desk/smokehouse/loads.test.ts',
  'loads.include': 'only after loads.exclude: test/desk/smokehouse/loads.test.ts',
  'loads.judge': NO_LOADS('and does not work out what they prove'),
  'loads.decide': 'only after loads.open or made.open: test/desk/smokehouse/loads.test.ts',
  'loads.voidDecision': 'only after loads.decide: test/desk/smokehouse/loads.test.ts',
};
