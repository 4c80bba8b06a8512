/** Every call that a window can make, by name, with the places whose stations may make it. */
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
import { deskOnly, floor, office, type Placed } from './session/places.ts';
import { cancel } from './animals/cancel.ts';
import { dispose } from './animals/dispose.ts';
import * as drafts from './animals/check-in/drafts.ts';
import { begin } from './animals/check-in/draft-sheet.ts';
import * as slips from './animals/check-in/slips.ts';
import { getDropOff } from './animals/drop-off.ts';
import * as fat from './grinder/fat.ts';
import { animalForFloor } from './floor/animal.ts';
import { grinderForFloor, lotsForFloor, planForFloor } from './floor/grinder.ts';
import { draftsForFloor, huntersForFloor, slipForFloor } from './floor/hunter.ts';
import { photoForFloor, photosForFloor } from './floor/photo.ts';
import { pickupForFloor } from './floor/pickup.ts';
import { shopForFloor } from './floor/shop.ts';
import * as ledger from './ledger/ledger.ts';
import * as owner from './ledger/owner.ts';
import * as rebuild from './ledger/rebuild.ts';
import * as teaching from './ledger/teaching.ts';
import { listNetworks } from './stations/networks.ts';
import * as held from './stations/held.ts';
import * as pins from './stations/pin.ts';
import * as stations from './stations/stations.ts';
import * as fatCount from './grinder/fat-count.ts';
import { addReady } from './recipes/ready.ts';
import * as ingredients from './recipes/ingredients.ts';
import * as loadLogs from './smokehouse/load-logs.ts';
import { get as getLoad } from './smokehouse/load-page.ts';
import * as loadReadings from './smokehouse/load-readings.ts';
import * as loads from './smokehouse/loads.ts';
import * as lessons from './lessons/lessons.ts';
import * as losses from './smokehouse/losses.ts';
import { label } from './smokehouse/made-label.ts';
import * as madePage from './smokehouse/made-page.ts';
import * as madeStart from './smokehouse/made-start.ts';
import * as madeWeigh from './smokehouse/made-weigh.ts';
import * as recipes from './recipes/recipes.ts';
import { getNeeds } from './grinder/fat-needs.ts';
import * as grinder from './grinder/grinder.ts';
import * as grinderCleaning from './grinder/grinder-cleaning.ts';
import * as holds from './animals/holds.ts';
import * as hunters from './animal/hunters.ts';
import * as intake from './animals/intake.ts';
import { getHistory } from './animals/history.ts';
import { getLastOrders } from './animals/last-orders.ts';
import { edit } from './animals/edit.ts';
import { check as checkPhotos } from './photos/check.ts';
import * as photos from './photos/photos.ts';
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

/** Where work is done; a hunter's own check-in (`hunter`) is none of them. */
const FLOOR = ['counter', 'cooler', 'table', 'grinder', 'smokehouse', 'pickup'] as const;

export const procedures = {
  'shop.get': floor(FLOOR, shop.get, shopForFloor),
  'shop.setUp': office(shop.setUp),
  'shop.saveSettings': office(shop.saveSettings),
  'shop.addStaff': office(shop.addStaff),
  'shop.trustClock': office(trustClock),
  'shop.openDemo': deskOnly(shop.openDemo),
  'shop.leaveDemo': deskOnly(shop.leaveDemo),

  'shop.backUp': office(backups.backUpNow),
  'shop.listBackups': office(backups.list),
  'shop.tryBackup': office(backups.tryBackup),
  'shop.renewBackups': office(renewBackups),
  'shop.restore': deskOnly(backups.restore),
  'shop.setLock': office(backups.setLock),
  'shop.tryAgain': deskOnly(backups.tryAgain),
  'shop.keepRecords': deskOnly(backups.keepRecords),
  'shop.beginAnew': deskOnly(backups.beginAnew),

  'ledger.get': deskOnly(ledger.get),
  'ledger.tryIt': deskOnly(ledger.tryIt),
  'ledger.prepare': deskOnly(ledger.prepare),
  'ledger.storePassword': deskOnly(ledger.storePassword),
  'ledger.turnOn': deskOnly(ledger.turnOn),
  'ledger.turnOff': deskOnly(ledger.turnOff),
  'ledger.newBranch': deskOnly(ledger.newBranch),
  'ledger.getShops': deskOnly(owner.getShops),
  'ledger.getShopRows': deskOnly(owner.getShopRows),
  'ledger.readAs': deskOnly(owner.readAs),
  'ledger.lesson': deskOnly(teaching.lesson),
  'ledger.books': deskOnly(rebuild.books),
  'ledger.rebuild': deskOnly(rebuild.rebuild),
  'ledger.rebuilding': deskOnly(rebuild.rebuilding),
  'ledger.cancelRebuild': deskOnly(rebuild.cancelRebuild),
  'ledger.openRebuilt': deskOnly(rebuild.openRebuilt),
  'stations.get': deskOnly(stations.get),
  'stations.listNetworks': deskOnly(listNetworks),
  'stations.setUp': deskOnly(stations.setUp),
  'stations.newCode': deskOnly(stations.newCode),
  'stations.allow': deskOnly(stations.allow),
  'stations.refuse': deskOnly(stations.refuse),
  'stations.rename': deskOnly(stations.rename),
  'stations.pause': deskOnly(stations.pause),
  'stations.resume': deskOnly(stations.resume),
  'stations.remove': deskOnly(stations.remove),
  'stations.decide': deskOnly(held.decide),
  'stations.setPin': deskOnly(pins.setPin),
  'stations.clearPin': deskOnly(pins.clearPin),

  'hunters.find': floor(['counter'], hunters.find, huntersForFloor),
  'hunters.save': office(hunters.save),
  'hunters.removeDetails': office(removeDetails),

  'drafts.begin': floor(['hunter'], begin),
  'drafts.add': floor(['hunter'], drafts.add),
  'drafts.list': floor(['counter'], drafts.list, draftsForFloor),
  'drafts.dismiss': floor(['counter'], drafts.dismiss),
  'drafts.restore': floor(['counter'], drafts.restore),
  'drafts.getSigned': floor(['counter'], drafts.getSigned),

  'slips.add': office(slips.add),
  'slips.find': floor(['counter'], slips.find, slipForFloor),

  'intake.takeIn': floor(['counter'], intake.takeIn),

  'rail.get': floor(['counter', 'cooler', 'table', 'grinder', 'pickup'], rail.get),

  'coolers.list': floor(['counter', 'cooler', 'table'], coolers.list),
  'coolers.save': office(coolers.save),
  'coolers.archive': office(coolers.archive),
  'coolers.restore': office(coolers.restore),
  'coolers.logTemperature': floor(['cooler'], coolers.logTemperature),
  'coolers.voidTemperature': floor(['cooler'], coolers.voidTemperature),
  'coolers.restoreTemperature': floor(['cooler'], coolers.restoreTemperature),
  'coolers.previewLog': office(coolerLogs.previewLog),
  'coolers.importLog': office(coolerLogs.importLog),
  'coolers.undoImport': office(coolerLogs.undoImport),
  'coolers.listLogs': floor(['cooler'], coolerLogs.listLogs),
  'coolers.getRecord': floor(['cooler'], getRecord),

  'animals.get': floor(['counter', 'cooler', 'table', 'grinder', 'pickup'], animals.get, animalForFloor),
  'animals.find': floor(FLOOR, animals.find),
  'animals.setStage': floor(['table'], animals.setStage),
  'animals.setDetail': floor(['table'], animals.setDetail),
  'animals.edit': office(edit),
  'animals.getHistory': office(getHistory),
  'animals.getDropOff': office(getDropOff),
  'animals.saveOrders': floor(['counter', 'table'], animals.saveOrders),
  'animals.getLastOrders': floor(['counter'], getLastOrders),
  'animals.hang': floor(['counter', 'cooler', 'table'], coolers.hang),
  'animals.hold': floor(['counter', 'cooler', 'table'], holds.hold),
  'animals.endHold': office(holds.endHold),
  'animals.testResult': office(testResult),
  'animals.noteAffected': office(affectedNotes.noteAffected),
  'animals.voidAffected': office(affectedNotes.voidAffected),
  'animals.dispose': office(dispose),
  'animals.cancel': office(cancel),
  'animals.reopen': office(reopenAnimal),

  'donations.add': office(donations.add),
  'donations.void': office(donations.voidOne),
  'donations.list': office(donations.list),
  'unprocessed.add': office(unprocessed.add),
  'unprocessed.void': office(unprocessed.voidOne),
  'pickup.saveNotice': office(notices.save),
  'pickup.voidNotice': office(notices.voidOne),

  'shares.save': office(share.save),
  'shares.release': floor(['pickup'], sharePickup.release),
  'shares.voidRelease': floor(['pickup'], sharePickup.voidRelease),

  'belongings.list': floor(['counter', 'cooler', 'table', 'pickup'], belongings.list),
  'belongings.add': floor(['counter', 'table'], belongings.add),
  'belongings.void': floor(['counter', 'table'], belongings.voidOne),
  'belongings.end': floor(['counter', 'pickup'], belongings.end),
  'belongings.voidEnd': floor(['counter', 'pickup'], belongings.voidEnd),

  // Photographs are taken where an animal comes in, hangs or is cut; papers are seen in the office alone.
  'photos.store': floor(['counter', 'cooler', 'table'], photos.store),
  'photos.add': floor(['counter', 'cooler', 'table'], photos.add),
  'photos.list': floor(['counter', 'cooler', 'table', 'pickup'], photos.list, photosForFloor),
  'photos.read': floor(['counter', 'cooler', 'table', 'pickup'], photos.readOne, photoForFloor),
  'photos.void': floor(['counter', 'cooler', 'table'], photos.voidOne),
  'photos.restore': floor(['counter', 'cooler', 'table'], photos.restore),
  'photos.check': office(checkPhotos),

  'table.weigh': floor(['counter', 'cooler', 'table'], table.weigh),
  'table.correct': floor(['counter', 'cooler', 'table', 'grinder', 'smokehouse'], table.correct),
  'table.void': floor(['counter', 'cooler', 'table', 'grinder', 'smokehouse'], table.void),
  'table.move': floor(['table'], move),
  'table.restore': floor(['counter', 'cooler', 'table', 'grinder', 'smokehouse'], restoreWeight),
  'table.stateNone': floor(['table'], partNone.stateNone),
  'table.voidNone': floor(['table'], partNone.voidNone),

  'grinder.get': floor(['grinder', 'smokehouse'], grinder.get, grinderForFloor),
  'grinder.getBatch': floor(['grinder', 'smokehouse'], grinder.getBatch),
  'grinder.plan': floor(['grinder'], grinder.plan, planForFloor),
  'grinder.start': floor(['grinder'], grinder.start),
  'grinder.weighIn': floor(['grinder'], batchWork.weighIn),
  'grinder.pass': floor(['grinder'], batchWork.pass),
  'grinder.pack': floor(['grinder'], batchWork.pack),
  'grinder.fatTest': floor(['grinder'], batchWork.fatTest),
  'grinder.finish': floor(['grinder'], batchWork.finish),
  'grinder.reopen': floor(['grinder'], reopenBatch),
  'grinder.saveCleaning': floor(['grinder'], grinderCleaning.saveCleaning),
  'grinder.voidCleaning': floor(['grinder'], grinderCleaning.voidCleaning),

  'fat.listLots': floor(['grinder'], fat.listLots, lotsForFloor),
  'fat.receive': office(fat.receive),
  'fat.listMovements': floor(['grinder'], fatCount.listMovements),
  'fat.getNeeds': office(getNeeds),
  'fat.discard': floor(['grinder'], fatCount.discard),
  'fat.count': floor(['grinder'], fatCount.count),

  'recipes.list': floor(['grinder', 'smokehouse'], recipes.list),
  'recipes.get': floor(['grinder', 'smokehouse'], recipes.get),
  'recipes.check': office(recipes.check),
  'recipes.save': office(recipes.save),
  'recipes.archive': office(recipes.archive),
  'recipes.restore': office(recipes.restore),
  'recipes.addReady': office(addReady),
  'recipes.saveIngredient': office(ingredients.saveIngredient),
  'recipes.archiveIngredient': office(ingredients.archiveIngredient),
  'recipes.restoreIngredient': office(ingredients.restoreIngredient),

  'made.list': floor(['smokehouse'], madePage.list),
  'made.get': floor(['smokehouse'], madePage.get),
  'made.open': floor(['smokehouse'], madeStart.open),
  'made.plan': floor(['smokehouse'], madeStart.plan),
  'made.start': floor(['smokehouse'], madeStart.start),
  'made.weigh': floor(['smokehouse'], madeWeigh.weigh),
  'made.voidWeighed': floor(['smokehouse'], madeWeigh.voidWeighed),
  'made.stage': floor(['smokehouse'], madeWeigh.stage),
  'made.voidStage': floor(['smokehouse'], madeWeigh.voidStage),
  'made.pack': floor(['smokehouse'], madeWeigh.pack),
  'made.analyse': floor(['smokehouse'], madeWeigh.analyse),
  'made.voidAnalysis': floor(['smokehouse'], madeWeigh.voidAnalysis),
  'made.void': floor(['smokehouse'], madeStart.voidOne),
  'made.forecast': floor(['smokehouse'], losses.forecast),
  'made.losses': floor(['smokehouse'], losses.losses),
  'made.label': floor(['smokehouse'], label),

  'loads.list': floor(['smokehouse'], loads.list),
  'loads.get': floor(['smokehouse'], getLoad),
  'loads.open': floor(['smokehouse'], loads.open),
  'loads.add': floor(['smokehouse'], loads.add),
  'loads.remove': floor(['smokehouse'], loads.remove),
  'loads.record': floor(['smokehouse'], loads.record),
  'loads.close': floor(['smokehouse'], loads.close),
  'loads.reopen': floor(['smokehouse'], loads.reopen),
  'loads.previewLog': floor(['smokehouse'], loadLogs.previewLog),
  'loads.importLog': floor(['smokehouse'], loadLogs.importLog),
  'loads.reading': floor(['smokehouse'], loadLogs.reading),
  'loads.voidLog': floor(['smokehouse'], loadLogs.voidLog),
  'loads.exclude': floor(['smokehouse'], loadReadings.exclude),
  'loads.include': floor(['smokehouse'], loadReadings.include),
  'loads.readings': floor(['smokehouse'], loadReadings.readings),
  'loads.judge': floor(['smokehouse'], loads.judge),
  'loads.decide': office(loads.decide),
  'loads.voidDecision': office(loads.voidDecision),

  'quotes.calculate': office(quote.calculate),
  'quotes.save': office(quote.save),
  'quotes.list': office(quote.list),
  'quotes.get': office(quote.get),

  'bills.get': office(bills.get),
  'bills.create': office(bills.create),
  'bills.void': office(bills.void),
  'bills.pay': office(bills.pay),
  'bills.voidPayment': office(bills.voidPayment),
  'bills.adjust': office(adjust),
  'bills.voidAdjustment': office(voidAdjustment),
  'bills.setExtras': office(setExtras),
  'bills.getHours': office(workTimes.getHours),
  'bills.addHours': office(workTimes.addHours),
  'bills.voidHours': office(workTimes.voidHours),
  'bills.restorePayment': office(restorePayment),
  'bills.restore': office(restoreBill),

  'till.get': office(till.get),
  'till.setFloat': office(till.setFloat),
  'till.close': office(till.close),
  'till.void': office(till.void),
  'till.listOwed': office(owed.listOwed),
  'till.getStatement': office(owed.getStatement),
  'till.saveReminder': office(owed.saveReminder),
  'till.exportJournal': office(journal.exportJournal),

  'prices.get': office(prices.get),
  'prices.save': office(prices.save),

  'pickup.get': floor(['pickup'], pickup.get, pickupForFloor),
  'pickup.saveNote': floor(['pickup'], pickup.saveNote),
  'pickup.release': floor(['pickup'], pickup.release),

  'shelf.get': office(shelf.get),
  'species.save': office(species.save),
  'species.archive': office(species.archive),
  'species.restore': office(species.restore),
  'products.save': office(products.save),
  'products.archive': office(products.archive),
  'products.restore': office(products.restore),
  'templates.save': office(templates.save),
  'templates.archive': office(templates.archive),
  'templates.restore': office(templates.restore),

  'season.getChoices': office(getChoices),
  'season.yields': office(yields),
  'season.pounds': office(pounds),
  'season.compare': office(compare),
  'season.drilldown': office(drilldown),
  'season.flow': office(flow),
  'season.fat': office(seasonFat),
  'season.check': office(check),

  'costing.get': office(costing.get),
  'costing.save': office(costing.save),
  'costing.tryPrices': office(tryPrices),

  'records.list': office(books.list),
  'records.check': office(books.check),

  'lessons.get': office(lessons.get),
  'lessons.give': office(lessons.give),
  'lessons.take': office(lessons.take),
  'lessons.use': office(lessons.use),
  'import.begin': office(imports.begin),
  'import.addPiece': office(imports.addPiece),
  'import.preview': office(imports.preview),
  'import.run': office(imports.run),
  'import.list': office(imports.list),
  'import.undo': office(imports.undo),

  'export.create': office(exports.create),
  'export.createForHunter': office(exports.createForHunter),
  'export.getPiece': office(exports.getPiece),
  'import.book': deskOnly(exports.importBook),
} satisfies Record<string, Placed>;
