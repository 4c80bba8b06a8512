import { appendOnlyTriggers, theBookViews } from './0001-the-book-views.ts';
import { theBook } from './0001-the-book.ts';
import { seasonSums } from './0002-season-sums.ts';
import { broughtIn } from './0003-brought-in.ts';
import { fatLeft } from './0004-fat-left.ts';
import { learning } from './0005-learning.ts';
import { coolerLogs } from './0006-cooler-logs.ts';
import { sumsInPlace } from './0007-sums-in-place.ts';
import { lookUps } from './0008-look-ups.ts';
import { releaseMended } from './0009-release-mended.ts';
import { resultsAndCleanings } from './0010-results-and-cleanings.ts';
import { formerTickets } from './0011-former-tickets.ts';
import { partNone } from './0012-part-none.ts';
import { reopened } from './0013-reopened.ts';
import { holdsAndFat } from './0014-holds-and-fat.ts';
import { legs } from './0015-legs.ts';
import { whatBelongs } from './0016-what-belongs.ts';
import { till } from './0017-till.ts';
import { pricesByKind } from './0018-prices-by-kind.ts';
import { affected } from './0019-affected.ts';
import { quoteTakenAgain } from './0020-quote-taken-again.ts';
import { smokehouse } from './0021-smokehouse.ts';
import { stations } from './0022-stations.ts';
import { hunterLanguage } from './0023-hunter-language.ts';
import { drafts } from './0024-drafts.ts';
import { priceOfTrim } from './0025-price-of-trim.ts';
import { madeAtStations } from './0026-made-at-stations.ts';
import { photographs } from './0027-photographs.ts';
import { slips } from './0028-slips.ts';
import { lessons } from './0029-lessons.ts';
import { reasonsAsCodes } from './0030-reasons-as-codes.ts';

/** Every step from an empty file to today's book, in order; step n brings a book to version n. Never edit a step that was released. */
export const MIGRATIONS: readonly string[] = [
  theBook + theBookViews + appendOnlyTriggers,
  seasonSums,
  broughtIn,
  fatLeft,
  learning,
  coolerLogs,
  sumsInPlace,
  lookUps,
  releaseMended,
  resultsAndCleanings,
  formerTickets,
  partNone,
  reopened,
  holdsAndFat,
  legs,
  whatBelongs,
  till,
  pricesByKind,
  affected,
  quoteTakenAgain,
  smokehouse,
  stations,
  hunterLanguage,
  drafts,
  priceOfTrim,
  madeAtStations,
  photographs,
  slips,
  lessons,
  reasonsAsCodes,
];

export const BOOK_VERSION = MIGRATIONS.length;

/** Marks the file as ours: the bytes of `GMBL`. */
export const APPLICATION_ID = 0x474d424c;
