/** The table of contents: everything that a window can ask of the desk. */
import * as animals from './animals/animals.ts';
import * as backups from './files/backups.ts';
import * as batchWork from './grinder/batch-work.ts';
import * as bills from './bills/bills.ts';
import * as books from './records/books.ts';
import * as bring from './bring/bring.ts';
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
import { behind } from './season/behind.ts';
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
import * as takeOut from './take-out/take-out.ts';
import * as templates from './shelf/templates.ts';
import { testResult } from './animals/test-results.ts';
import { tryPrices } from './costing/try-prices.ts';

export const procedures = {
  'shop.look': shop.look,
  'shop.setUp': shop.setUp,
  'shop.change': shop.change,
  'shop.addStaff': shop.addStaff,
  'shop.trustClock': trustClock,
  'shop.openDemo': shop.openDemo,
  'shop.leaveDemo': shop.leaveDemo,

  'shop.backUp': backups.backUpNow,
  'shop.backups': backups.look,
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

  'rail.look': rail.look,

  'coolers.look': coolers.look,
  'coolers.save': coolers.save,
  'coolers.putAway': coolers.putAway,
  'coolers.log': coolers.log,
  'coolers.takeBack': coolers.takeBack,
  'coolers.lookLog': coolerLogs.look,
  'coolers.bringLog': coolerLogs.bringIn,
  'coolers.undoLog': coolerLogs.undo,
  'coolers.logs': coolerLogs.list,
  'coolers.record': coolerRecord,

  'animals.open': animals.open,
  'animals.find': animals.find,
  'animals.setStage': animals.setStage,
  'animals.setDetail': animals.setDetail,
  'animals.mend': mend,
  'animals.history': history,
  'animals.instruct': animals.instruct,
  'animals.lastOrders': lastOrders,
  'animals.hang': coolers.hang,
  'animals.hold': holds.hold,
  'animals.endHold': holds.endHold,
  'animals.testResult': testResult,
  'animals.dispose': dispose,
  'animals.reopen': reopenAnimal,

  'table.weigh': table.weigh,
  'table.correct': table.correct,
  'table.void': table.void,
  'table.none': partNone.none,
  'table.voidNone': partNone.voidNone,

  'grinder.look': grinder.look,
  'grinder.open': grinder.open,
  'grinder.plan': grinder.plan,
  'grinder.start': grinder.start,
  'grinder.weighIn': batchWork.weighIn,
  'grinder.pass': batchWork.pass,
  'grinder.pack': batchWork.pack,
  'grinder.fatTest': batchWork.fatTest,
  'grinder.finish': batchWork.finish,
  'grinder.reopen': reopenBatch,
  'grinder.cleaned': grinderCleaning.cleaned,
  'grinder.voidCleaning': grinderCleaning.voidCleaning,

  'fat.lots': fat.lots,
  'fat.buy': fat.buy,
  'fat.moves': fatCount.moves,
  'fat.needs': needs,
  'fat.throwOut': fatCount.throwOut,
  'fat.count': fatCount.count,

  'quote.work': quote.work,
  'quote.save': quote.save,
  'quote.list': quote.list,
  'quote.open': quote.open,

  'bills.look': bills.look,
  'bills.make': bills.make,
  'bills.void': bills.void,
  'bills.pay': bills.pay,
  'bills.voidPayment': bills.voidPayment,

  'prices.look': prices.look,
  'prices.save': prices.save,

  'pickup.look': pickup.look,
  'pickup.note': pickup.note,
  'pickup.release': pickup.release,

  'shelf.look': shelf.look,
  'species.save': species.save,
  'species.putAway': species.putAway,
  'species.bringBack': species.bringBack,
  'products.save': products.save,
  'products.putAway': products.putAway,
  'products.bringBack': products.bringBack,
  'templates.save': templates.save,
  'templates.putAway': templates.putAway,
  'templates.bringBack': templates.bringBack,

  'season.choices': choices,
  'season.yields': yields,
  'season.pounds': pounds,
  'season.compare': compare,
  'season.behind': behind,
  'season.flow': flow,
  'season.fat': seasonFat,
  'season.check': check,

  'costing.look': costing.look,
  'costing.save': costing.save,
  'costing.tryPrices': tryPrices,

  'books.records': books.records,
  'books.check': books.check,

  'bring.begin': bring.begin,
  'bring.piece': bring.piece,
  'bring.look': bring.look,
  'bring.bringIn': bring.bringIn,
  'bring.list': bring.list,
  'bring.undo': bring.undo,

  'takeout.pack': takeOut.pack,
  'takeout.packHunter': takeOut.packHunter,
  'takeout.piece': takeOut.piece,
  'takeout.fill': takeOut.fill,
};
