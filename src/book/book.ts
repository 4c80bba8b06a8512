import { statSync } from 'node:fs';
import { actor } from './changes/acting.ts';
import { changeLog } from './changes/change-log.ts';
import { adjustmentRecords } from './records/charges/adjustments.ts';
import { workTimeRecords } from './records/charges/work-times.ts';
import { animalRecords } from './records/animals.ts';
import { auditRecords } from './records/audit.ts';
import { batchRecords } from './records/batches.ts';
import { billRecords } from './records/bills.ts';
import { importRecords } from './records/imports.ts';
import { callNoteRecords } from './records/call-notes.ts';
import { belongingRecords } from './records/of-animal/belongings.ts';
import { photographRecords } from './records/of-animal/photographs.ts';
import { shareRecords } from './records/of-animal/shares.ts';
import { donationRecords } from './records/of-animal/donations.ts';
import { leavingRecords } from './records/of-animal/leaving.ts';
import { cancelRecords } from './records/of-animal/cancels.ts';
import { coolerLogRecords } from './records/cooler-logs.ts';
import { coolerRecords } from './records/coolers.ts';
import { feedLog } from './feed/feed.ts';
import { fatLotRecords } from './records/fat-lots.ts';
import { grinderCleaningRecords } from './records/grinder-cleanings.ts';
import { historyRecords } from './records/history.ts';
import { hookPairs } from './records/hook-pairs.ts';
import { hunterRecords } from './records/hunters.ts';
import { lessonRecords } from './records/lessons.ts';
import { ownSpeciesRecords } from './records/own-species.ts';
import { partNoneRecords } from './records/part-none.ts';
import { checkBuilt, closeBook, openBook } from './file/open.ts';
import { openBalances } from './records/money/open-balances.ts';
import { prepareLate } from './file/late-statements.ts';
import { paymentRecords } from './records/payments.ts';
import { priceRecords } from './records/prices.ts';
import { productRecords } from './records/products.ts';
import { quoteRecords } from './records/quotes.ts';
import { snapshotReaders } from './file/readers.ts';
import { recordBook } from './records/record-book.ts';
import { seasonDrilldown } from './sums/season-drilldown.ts';
import { seasonCompare } from './sums/season-compare.ts';
import { seasonFlow } from './sums/season-flow.ts';
import { seasonCheck } from './sums/season-check.ts';
import { seasonFat } from './sums/season-fat.ts';
import { seasonMoney } from './sums/season-money.ts';
import { seasonMade } from './sums/season-made.ts';
import { seasonPounds } from './sums/season-pounds.ts';
import { seasonRows } from './sums/season-rows.ts';
import { seasonYields } from './sums/season-yields.ts';
import { oldDrafts } from './privacy/old-drafts.ts';
import { detailsRemoval } from './privacy/remove-details.ts';
import { seasonSummaries } from './sums/season-summaries.ts';
import { settingRecords } from './records/settings.ts';
import { summaries } from './sums/sums.ts';
import { tillRecords } from './records/money/till.ts';
import { templateRecords } from './records/templates.ts';
import { loadLogRecords } from './records/smokehouse/load-logs.ts';
import { loadRecords } from './records/smokehouse/loads.ts';
import { madeRecords } from './records/smokehouse/made.ts';
import { madeWeightRecords } from './records/smokehouse/made-weights.ts';
import { recipeRecords } from './records/smokehouse/recipes.ts';
import { draftRecords } from './records/stations/drafts.ts';
import { slipRecords } from './records/stations/slips.ts';
import { stationEntryRecords } from './records/stations/entries.ts';
import { pinRecords } from './records/stations/pins.ts';
import { stationRecords } from './records/stations/stations.ts';
import { affectedNoteRecords } from './records/results/affected-notes.ts';
import { traceRecords } from './records/results/traces.ts';
import { testResultRecords } from './records/results/test-results.ts';
import { testedGrinds } from './records/tested-grinds.ts';
import { BookError } from './file/book-error.ts';
import { weighingRecords } from './records/weighings.ts';
import { rowCounts } from './records/counts.ts';

/** The open record book: one member per kind of record, and `change`, which wraps every write. */
export type Book = ReturnType<typeof openRecordBook>;

/** Opens (or creates) the book at `path`; `relaxed` and `checked` as in `openBook`. @throws BookError */
export function openRecordBook(path: string, now: Date, relaxed = false, checked = false) {
  const db = openBook(path, now, relaxed, checked);
  prepareLate(db);
  const checkPlace = placeCheck(path);
  const changes = changeLog(db);
  const readers = snapshotReaders(path);
  const inOne = db.transaction((work: () => unknown) => work());
  const closing: (() => void)[] = [];
  const endReaders = (): void => {
    for (const end of closing.splice(0)) end();
    readers.close();
  };
  return {
    db,
    path,
    settings: settingRecords(db),
    audit: auditRecords(db),
    stations: stationRecords(db),
    stationEntries: stationEntryRecords(db),
    pins: pinRecords(db),
    drafts: draftRecords(db),
    slips: slipRecords(db),
    oldDrafts: oldDrafts(db),
    ownSpecies: ownSpeciesRecords(db),
    lessons: lessonRecords(db),
    products: productRecords(db),
    templates: templateRecords(db),
    coolers: coolerRecords(db),
    coolerLogs: coolerLogRecords(db),
    hunters: hunterRecords(db),
    animals: animalRecords(db),
    cancels: cancelRecords(db),
    belongings: belongingRecords(db),
    photographs: photographRecords(db),
    shares: shareRecords(db),
    donations: donationRecords(db),
    leaving: leavingRecords(db),
    testResults: testResultRecords(db),
    affectedNotes: affectedNoteRecords(db),
    traces: traceRecords(db),
    weighings: weighingRecords(db),
    partNone: partNoneRecords(db),
    fat: fatLotRecords(db),
    batches: batchRecords(db),
    grinderCleanings: grinderCleaningRecords(db),
    testedGrinds: testedGrinds(db),
    recipes: recipeRecords(db),
    made: madeRecords(db),
    madeWeights: madeWeightRecords(db),
    loads: loadRecords(db),
    loadLogs: loadLogRecords(db),
    prices: priceRecords(db),
    quotes: quoteRecords(db),
    bills: billRecords(db),
    payments: paymentRecords(db),
    till: tillRecords(db),
    openBalances: openBalances(db),
    workTimes: workTimeRecords(db),
    adjustments: adjustmentRecords(db),
    callNotes: callNoteRecords(db),
    counts: rowCounts(db),
    records: recordBook(db),
    history: historyRecords(db),
    imports: importRecords(db),
    removedDetails: detailsRemoval(db),
    sums: summaries(db),
    hookPairs: hookPairs(db),
    seasonSummaries: seasonSummaries(db),
    changes,
    feed: feedLog(db),
    seasonRows: seasonRows(db, changes),
    seasonFlow: seasonFlow(db),
    seasonCheck: seasonCheck(db, changes),
    seasonFat: seasonFat(db),
    seasonMoney: seasonMoney(db, changes),
    seasonYields: seasonYields(db),
    seasonMade: seasonMade(db),
    seasonPounds: seasonPounds(db),
    seasonCompare: seasonCompare(db),
    seasonDrilldown: seasonDrilldown(db),
    /** Runs `work` in one immediate transaction: all of it is written, or nothing. */
    change<T>(work: () => T): T {
      checkPlace();
      const before = changes.mark();
      const acting = db.inTransaction ? undefined : actor();
      try {
        return inOne.immediate(acting ? () => acting.within(work) : work) as T;
      } catch (error) {
        changes.rolledBack(before);
        throw error;
      }
    },
    /** @throws BookError `missing` or `changed` when the file at the book's path is no longer the one opened */
    checkPlace,
    /** Checks that another program left the tables, triggers and views unchanged. @throws BookError `altered` */
    checkBuilt: (): unknown => checkBuilt(db, path),
    /** Long reads use a connection of their own. @throws Error when the book was closed meanwhile */
    read: readers.read,
    /** Calls `end` before the book is closed: for whoever reads it in another thread. */
    onClosing: (end: () => void): void => void closing.push(end),
    /** Closes a connection to a book that this program has open elsewhere; the log is on disk and stays there. */
    leave(): void {
      endReaders();
      db.pragma('wal_checkpoint(PASSIVE)');
      db.close();
    },
    /** Size of the file in bytes. */
    size: (): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0,
    close(): void {
      endReaders();
      closeBook(db);
    },
  };
}

/**
 * A file that was deleted or replaced while open still accepts writes, and loses them when closed.
 * @returns a function that throws BookError `missing` or `changed` when the file at `path` is no longer the one opened
 */
function placeCheck(path: string): () => void {
  const fileAt = () => {
    const found = statSync(path, { bigint: true, throwIfNoEntry: false });
    return found && `${found.dev} ${found.ino}`;
  };
  const opened = fileAt();
  return () => {
    const now = fileAt();
    if (now !== opened) throw new BookError(now === undefined ? 'missing' : 'changed', path);
  };
}
