/** Every call that a window can make, by name. */
import * as donations from './animals/donations.ts';
import * as notices from './animals/notices.ts';
import * as unprocessed from './animals/unprocessed.ts';
import * as belongings from './animals/belongings.ts';
import * as animals from './animals/animals.ts';
import * as backups from './files/backups.ts';
import * as batchWork from './grinder/batch-work.ts';
import { adjust, voidAdjustment } from './bills/adjust.ts';
import * as bills from './bills/bills.ts';
import { setExtras } from './bills/extras.ts';
import * as workTimes from './bills/work-times.ts';
import { restoreBill } from './bills/restore-bill.ts';
import { restorePayment } from './bills/restore-payment.ts';
import * as books from './records/books.ts';
import * as imports from './import/import.ts';
import * as coolerLogs from './coolers/cooler-logs.ts';
import { getRecord } from './coolers/cooler-record.ts';
import * as coolers from './coolers/coolers.ts';
import * as costing from './costing/costing.ts';
import { trustClock } from './session/clock.ts';
import { cancel } from './animals/cancel.ts';
import { dispose } from './animals/dispose.ts';
import { getDropOff } from './animals/drop-off.ts';
import * as fat from './grinder/fat.ts';
import * as fatCount from './grinder/fat-count.ts';
import { addReady } from './smokehouse/ready.ts';
import * as ingredients from './smokehouse/ingredients.ts';
import * as loadLogs from './smokehouse/load-logs.ts';
import { get as getLoad } from './smokehouse/load-page.ts';
import * as loadReadings from './smokehouse/load-readings.ts';
import * as loads from './smokehouse/loads.ts';
import * as losses from './smokehouse/losses.ts';
import { label } from './smokehouse/made-label.ts';
import * as madePage from './smokehouse/made-page.ts';
import * as madeStart from './smokehouse/made-start.ts';
import * as madeWeigh from './smokehouse/made-weigh.ts';
import * as recipes from './smokehouse/recipes.ts';
import { getNeeds } from './grinder/fat-needs.ts';
import * as grinder from './grinder/grinder.ts';
import * as grinderCleaning from './grinder/grinder-cleaning.ts';
import * as holds from './animals/holds.ts';
import * as hunters from './animal/hunters.ts';
import * as intake from './animals/intake.ts';
import { getHistory } from './animals/history.ts';
import { getLastOrders } from './animals/last-orders.ts';
import { edit } from './animals/edit.ts';
import * as pickup from './animals/pickup.ts';
import * as share from './animals/share.ts';
import * as sharePickup from './animals/share-pickup.ts';
import * as prices from './pricing/prices.ts';
import * as products from './shelf/products.ts';
import * as quote from './quotes/quote.ts';
import * as rail from './animals/rail.ts';
import { removeDetails } from './records/remove-details.ts';
import { renewBackups } from './files/renew-backups.ts';
import { reopenAnimal, reopenBatch } from './animals/reopen.ts';
import { drilldown } from './season/drilldown.ts';
import { getChoices } from './season/choices.ts';
import { compare } from './season/compare.ts';
import { flow } from './season/flow.ts';
import { pounds } from './season/pounds.ts';
import { yields } from './season/yields.ts';
import { check } from './season/check.ts';
import { fat as seasonFat } from './season/fat.ts';
import * as shelf from './shelf/shelf.ts';
import * as shop from './shop/shop.ts';
import * as species from './shelf/species.ts';
import * as partNone from './weighing/part-none.ts';
import { move } from './weighing/move.ts';
import * as table from './weighing/table.ts';
import { restore as restoreWeight } from './weighing/restore.ts';
import * as exports from './export/export.ts';
import * as templates from './shelf/templates.ts';
import * as journal from './till/export-journal.ts';
import * as owed from './till/owed.ts';
import * as till from './till/till.ts';
import * as affectedNotes from './animals/affected-notes.ts';
import { testResult } from './animals/test-results.ts';
import { tryPrices } from './costing/try-prices.ts';

export const procedures = {
  'shop.get': shop.get,
  'shop.setUp': shop.setUp,
  'shop.saveSettings': shop.saveSettings,
  'shop.addStaff': shop.addStaff,
  'shop.trustClock': trustClock,
  'shop.openDemo': shop.openDemo,
  'shop.leaveDemo': shop.leaveDemo,

  'shop.backUp': backups.backUpNow,
  'shop.listBackups': backups.list,
  'shop.tryBackup': backups.tryBackup,
  'shop.renewBackups': renewBackups,
  'shop.restore': backups.restore,
  'shop.setLock': backups.setLock,
  'shop.tryAgain': backups.tryAgain,
  'shop.keepRecords': backups.keepRecords,
  'shop.beginAnew': backups.beginAnew,

  'hunters.find': hunters.find,
  'hunters.save': hunters.save,
  'hunters.removeDetails': removeDetails,

  'intake.takeIn': intake.takeIn,

  'rail.get': rail.get,

  'coolers.list': coolers.list,
  'coolers.save': coolers.save,
  'coolers.archive': coolers.archive,
  'coolers.restore': coolers.restore,
  'coolers.logTemperature': coolers.logTemperature,
  'coolers.voidTemperature': coolers.voidTemperature,
  'coolers.restoreTemperature': coolers.restoreTemperature,
  'coolers.previewLog': coolerLogs.previewLog,
  'coolers.importLog': coolerLogs.importLog,
  'coolers.undoImport': coolerLogs.undoImport,
  'coolers.listLogs': coolerLogs.listLogs,
  'coolers.getRecord': getRecord,

  'animals.get': animals.get,
  'animals.find': animals.find,
  'animals.setStage': animals.setStage,
  'animals.setDetail': animals.setDetail,
  'animals.edit': edit,
  'animals.getHistory': getHistory,
  'animals.getDropOff': getDropOff,
  'animals.saveOrders': animals.saveOrders,
  'animals.getLastOrders': getLastOrders,
  'animals.hang': coolers.hang,
  'animals.hold': holds.hold,
  'animals.endHold': holds.endHold,
  'animals.testResult': testResult,
  'animals.noteAffected': affectedNotes.noteAffected,
  'animals.voidAffected': affectedNotes.voidAffected,
  'animals.dispose': dispose,
  'animals.cancel': cancel,
  'animals.reopen': reopenAnimal,

  'donations.add': donations.add,
  'donations.void': donations.voidOne,
  'donations.list': donations.list,
  'unprocessed.add': unprocessed.add,
  'unprocessed.void': unprocessed.voidOne,
  'pickup.saveNotice': notices.save,
  'pickup.voidNotice': notices.voidOne,

  'shares.save': share.save,
  'shares.release': sharePickup.release,
  'shares.voidRelease': sharePickup.voidRelease,

  'belongings.list': belongings.list,
  'belongings.add': belongings.add,
  'belongings.void': belongings.voidOne,
  'belongings.end': belongings.end,
  'belongings.voidEnd': belongings.voidEnd,

  'table.weigh': table.weigh,
  'table.correct': table.correct,
  'table.void': table.void,
  'table.move': move,
  'table.restore': restoreWeight,
  'table.stateNone': partNone.stateNone,
  'table.voidNone': partNone.voidNone,

  'grinder.get': grinder.get,
  'grinder.getBatch': grinder.getBatch,
  'grinder.plan': grinder.plan,
  'grinder.start': grinder.start,
  'grinder.weighIn': batchWork.weighIn,
  'grinder.pass': batchWork.pass,
  'grinder.pack': batchWork.pack,
  'grinder.fatTest': batchWork.fatTest,
  'grinder.finish': batchWork.finish,
  'grinder.reopen': reopenBatch,
  'grinder.saveCleaning': grinderCleaning.saveCleaning,
  'grinder.voidCleaning': grinderCleaning.voidCleaning,

  'fat.listLots': fat.listLots,
  'fat.receive': fat.receive,
  'fat.listMovements': fatCount.listMovements,
  'fat.getNeeds': getNeeds,
  'fat.discard': fatCount.discard,
  'fat.count': fatCount.count,

  'recipes.list': recipes.list,
  'recipes.get': recipes.get,
  'recipes.check': recipes.check,
  'recipes.save': recipes.save,
  'recipes.archive': recipes.archive,
  'recipes.restore': recipes.restore,
  'recipes.addReady': addReady,
  'recipes.saveIngredient': ingredients.saveIngredient,
  'recipes.archiveIngredient': ingredients.archiveIngredient,
  'recipes.restoreIngredient': ingredients.restoreIngredient,

  'made.list': madePage.list,
  'made.get': madePage.get,
  'made.open': madeStart.open,
  'made.plan': madeStart.plan,
  'made.start': madeStart.start,
  'made.weigh': madeWeigh.weigh,
  'made.voidWeighed': madeWeigh.voidWeighed,
  'made.stage': madeWeigh.stage,
  'made.voidStage': madeWeigh.voidStage,
  'made.pack': madeWeigh.pack,
  'made.analyse': madeWeigh.analyse,
  'made.voidAnalysis': madeWeigh.voidAnalysis,
  'made.void': madeStart.voidOne,
  'made.forecast': losses.forecast,
  'made.losses': losses.losses,
  'made.label': label,

  'loads.list': loads.list,
  'loads.get': getLoad,
  'loads.open': loads.open,
  'loads.add': loads.add,
  'loads.remove': loads.remove,
  'loads.record': loads.record,
  'loads.close': loads.close,
  'loads.reopen': loads.reopen,
  'loads.previewLog': loadLogs.previewLog,
  'loads.importLog': loadLogs.importLog,
  'loads.reading': loadLogs.reading,
  'loads.voidLog': loadLogs.voidLog,
  'loads.exclude': loadReadings.exclude,
  'loads.include': loadReadings.include,
  'loads.readings': loadReadings.readings,
  'loads.judge': loads.judge,
  'loads.decide': loads.decide,
  'loads.voidDecision': loads.voidDecision,

  'quotes.calculate': quote.calculate,
  'quotes.save': quote.save,
  'quotes.list': quote.list,
  'quotes.get': quote.get,

  'bills.get': bills.get,
  'bills.create': bills.create,
  'bills.void': bills.void,
  'bills.pay': bills.pay,
  'bills.voidPayment': bills.voidPayment,
  'bills.adjust': adjust,
  'bills.voidAdjustment': voidAdjustment,
  'bills.setExtras': setExtras,
  'bills.getHours': workTimes.getHours,
  'bills.addHours': workTimes.addHours,
  'bills.voidHours': workTimes.voidHours,
  'bills.restorePayment': restorePayment,
  'bills.restore': restoreBill,

  'till.get': till.get,
  'till.setFloat': till.setFloat,
  'till.close': till.close,
  'till.void': till.void,
  'till.listOwed': owed.listOwed,
  'till.getStatement': owed.getStatement,
  'till.saveReminder': owed.saveReminder,
  'till.exportJournal': journal.exportJournal,

  'prices.get': prices.get,
  'prices.save': prices.save,

  'pickup.get': pickup.get,
  'pickup.saveNote': pickup.saveNote,
  'pickup.release': pickup.release,

  'shelf.get': shelf.get,
  'species.save': species.save,
  'species.archive': species.archive,
  'species.restore': species.restore,
  'products.save': products.save,
  'products.archive': products.archive,
  'products.restore': products.restore,
  'templates.save': templates.save,
  'templates.archive': templates.archive,
  'templates.restore': templates.restore,

  'season.getChoices': getChoices,
  'season.yields': yields,
  'season.pounds': pounds,
  'season.compare': compare,
  'season.drilldown': drilldown,
  'season.flow': flow,
  'season.fat': seasonFat,
  'season.check': check,

  'costing.get': costing.get,
  'costing.save': costing.save,
  'costing.tryPrices': tryPrices,

  'records.list': books.list,
  'records.check': books.check,

  'import.begin': imports.begin,
  'import.addPiece': imports.addPiece,
  'import.preview': imports.preview,
  'import.run': imports.run,
  'import.list': imports.list,
  'import.undo': imports.undo,

  'export.create': exports.create,
  'export.createForHunter': exports.createForHunter,
  'export.getPiece': exports.getPiece,
  'import.book': exports.importBook,
};
