/** The table of contents: everything that a window can ask of the desk. */
import * as animals from './animals/animals.ts';
import * as backups from './files/backups.ts';
import * as batchWork from './grinder/batch-work.ts';
import * as bills from './bills/bills.ts';
import * as books from './records/books.ts';
import * as bring from './import/import.ts';
import * as coolerLogs from './coolers/cooler-logs.ts';
import { record as coolerRecord } from './coolers/cooler-record.ts';
import * as coolers from './coolers/coolers.ts';
import * as costing from './costing/costing.ts';
import { trustClock } from './session/clock.ts';
import { dispose } from './animals/dispose.ts';
import * as fat from './grinder/fat.ts';
import * as fatCount from './grinder/fat-count.ts';
import { needs } from './grinder/fat-needs.ts';
import * as grinder from './grinder/grinder.ts';
import * as grinderCleaning from './grinder/grinder-cleaning.ts';
import * as holds from './animals/holds.ts';
import * as hunters from './animal/hunters.ts';
import * as intake from './animals/intake.ts';
import { history } from './animals/history.ts';
import { lastOrders } from './animals/last-orders.ts';
import { mend } from './animals/mend.ts';
import * as pickup from './animals/pickup.ts';
import * as prices from './pricing/prices.ts';
import * as products from './shelf/products.ts';
import * as quote from './quotes/quote.ts';
import * as rail from './animals/rail.ts';
import { removeDetails } from './records/remove-details.ts';
import { renewBackups } from './files/renew-backups.ts';
import { reopenAnimal, reopenBatch } from './animals/reopen.ts';
import { behind } from './season/drilldown.ts';
import { choices } from './season/choices.ts';
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
import * as table from './weighing/table.ts';
import * as takeOut from './export/export.ts';
import * as templates from './shelf/templates.ts';
import { testResult } from './animals/test-results.ts';
import { tryPrices } from './costing/try-prices.ts';

export const procedures = {
  'shop.get': shop.look,
  'shop.setUp': shop.setUp,
  'shop.saveSettings': shop.change,
  'shop.addStaff': shop.addStaff,
  'shop.trustClock': trustClock,
  'shop.openDemo': shop.openDemo,
  'shop.leaveDemo': shop.leaveDemo,

  'shop.backUp': backups.backUpNow,
  'shop.listBackups': backups.look,
  'shop.tryBackup': backups.tryOne,
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

  'rail.get': rail.look,

  'coolers.list': coolers.look,
  'coolers.save': coolers.save,
  'coolers.archive': coolers.putAway,
  'coolers.logTemperature': coolers.log,
  'coolers.voidTemperature': coolers.takeBack,
  'coolers.previewLog': coolerLogs.look,
  'coolers.importLog': coolerLogs.bringIn,
  'coolers.undoImport': coolerLogs.undo,
  'coolers.listLogs': coolerLogs.list,
  'coolers.getRecord': coolerRecord,

  'animals.get': animals.open,
  'animals.find': animals.find,
  'animals.setStage': animals.setStage,
  'animals.setDetail': animals.setDetail,
  'animals.edit': mend,
  'animals.getHistory': history,
  'animals.saveOrders': animals.instruct,
  'animals.getLastOrders': lastOrders,
  'animals.hang': coolers.hang,
  'animals.hold': holds.hold,
  'animals.endHold': holds.endHold,
  'animals.testResult': testResult,
  'animals.dispose': dispose,
  'animals.reopen': reopenAnimal,

  'table.weigh': table.weigh,
  'table.correct': table.correct,
  'table.void': table.void,
  'table.stateNone': partNone.none,
  'table.voidNone': partNone.voidNone,

  'grinder.get': grinder.look,
  'grinder.getBatch': grinder.open,
  'grinder.plan': grinder.plan,
  'grinder.start': grinder.start,
  'grinder.weighIn': batchWork.weighIn,
  'grinder.pass': batchWork.pass,
  'grinder.pack': batchWork.pack,
  'grinder.fatTest': batchWork.fatTest,
  'grinder.finish': batchWork.finish,
  'grinder.reopen': reopenBatch,
  'grinder.saveCleaning': grinderCleaning.cleaned,
  'grinder.voidCleaning': grinderCleaning.voidCleaning,

  'fat.listLots': fat.lots,
  'fat.receive': fat.buy,
  'fat.listMovements': fatCount.moves,
  'fat.getNeeds': needs,
  'fat.discard': fatCount.throwOut,
  'fat.count': fatCount.count,

  'quotes.calculate': quote.work,
  'quotes.save': quote.save,
  'quotes.list': quote.list,
  'quotes.get': quote.open,

  'bills.get': bills.look,
  'bills.create': bills.make,
  'bills.void': bills.void,
  'bills.pay': bills.pay,
  'bills.voidPayment': bills.voidPayment,

  'prices.get': prices.look,
  'prices.save': prices.save,

  'pickup.get': pickup.look,
  'pickup.saveNote': pickup.note,
  'pickup.release': pickup.release,

  'shelf.get': shelf.look,
  'species.save': species.save,
  'species.archive': species.putAway,
  'species.restore': species.bringBack,
  'products.save': products.save,
  'products.archive': products.putAway,
  'products.restore': products.bringBack,
  'templates.save': templates.save,
  'templates.archive': templates.putAway,
  'templates.restore': templates.bringBack,

  'season.getChoices': choices,
  'season.yields': yields,
  'season.pounds': pounds,
  'season.compare': compare,
  'season.drilldown': behind,
  'season.flow': flow,
  'season.fat': seasonFat,
  'season.check': check,

  'costing.get': costing.look,
  'costing.save': costing.save,
  'costing.tryPrices': tryPrices,

  'records.list': books.records,
  'records.check': books.check,

  'import.begin': bring.begin,
  'import.addPiece': bring.piece,
  'import.preview': bring.look,
  'import.run': bring.bringIn,
  'import.list': bring.list,
  'import.undo': bring.undo,

  'export.create': takeOut.pack,
  'export.createForHunter': takeOut.packHunter,
  'export.getPiece': takeOut.piece,
  'import.book': takeOut.fill,
};
