import { isDeepStrictEqual } from 'node:util';
import * as v from 'valibot';
import { lastEntryOf } from '../../book/file/backup-check.ts';
import { refuseOwnFolder } from '../../book/file/second-place.ts';
import { BookError } from '../../book/file/book-error.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { newestBackup } from '../session/make-backup.ts';
import { refuseCurrency } from '../pricing/account.ts';
import { clockDoubt } from '../session/clock.ts';
import { noteTermsChange } from '../session/drop-off-terms.ts';
import { coolerCards } from '../coolers/coolers.ts';
import { by, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { host, read, write } from '../session/procedure.ts';
import { CAUTIONS, EXAMPLE_PRICES, FATS, speciesCard } from '../supplied/resources.ts';
import { pricedLines, savePrices } from '../pricing/prices.ts';
import { orderRecipes } from '../recipes/ordered.ts';
import { productCards } from '../pricing/products-shelf.ts';
import { RECORD_SETS } from '../input/record-sets.ts';
import type { Session } from '../session/session.ts';
import { readSetting, settingSchemas } from '../session/settings.ts';
import type { ShopView, ShopSettings } from '../contract/contract.ts';
import { templateCards } from '../shelf/templates-shelf.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';

/** The shop data of every screen, and the current opening of the book. */
export const get = read(v.object({}), shopView, true);

/** First start: name, unit and currency only. */
export const setUp = write(
  v.object({
    shopName: settingSchemas.shopName,
    unit: settingSchemas.unit,
    currency: v.optional(settingSchemas.currency),
    by,
  }),
  (session, input) => {
    const { shopName, unit, currency = session.settings.currency } = input;
    if (currency !== session.settings.currency) refuseCurrency(session, currency);
    keepSettings(
      session,
      { shopName, unit, currency, step: unit === 'lb' ? 0.05 : 0.02, zone: session.settings.zone },
      input.by,
    );
    if (!session.book.prices.inForce(session.today())) {
      savePrices(session, {
        name: 'Example prices',
        validFrom: '2000-01-01',
        taxRule: 'per line',
        example: true,
        lines: EXAMPLE_PRICES[input.unit],
        by: input.by,
      });
    }
    return shopView(session);
  },
);

export const saveSettings = write(
  v.object({ changes: v.partial(v.strictObject(settingSchemas)), by }),
  (session, { changes, by: initials }) => {
    const before = session.settings;
    const { secondBackupFolder: second } = changes;
    if (changes.currency !== undefined && changes.currency !== before.currency)
      refuseCurrency(session, changes.currency);
    if (second && second !== before.secondBackupFolder) checkSecondPlace(session, second);
    const changed = Object.entries(changes).filter(
      ([key, value]) =>
        value !== undefined &&
        // A replaced setting is written even if it equals its replacement.
        (isReplaced(session, key) || !isDeepStrictEqual(before[key as keyof ShopSettings], value)),
    );
    keepSettings(session, Object.fromEntries(changed), initials);
    noteTermsChange(session, Object.fromEntries(changed));
    return shopView(session);
  },
);

export const addStaff = write(
  v.object({ initials: v.pipe(needed(6), v.toUpperCase()), name: needed(80), by }),
  (session, input) => {
    const staff = session.book.settings.staff();
    const before = staff.find((one) => one.initials === input.initials);
    if (!before) refuseMoreOfShop('staff', staff.length);
    session.book.settings.addStaff(input.initials, input.name);
    session.book.audit.note({
      record: 'staff',
      recordId: input.initials,
      act: before ? 'change' : 'add',
      ...(before && { before: { name: before.name } }),
      after: { name: input.name },
      at: session.now(),
      by: input.by,
    });
    return shopView(session);
  },
);

/** Opens the demo season; the shop's own book is closed meanwhile. */
export const openDemo = host(v.object({}), async (session) => shopView(await session.host.openDemo()));
export const leaveDemo = host(v.object({}), async (session) => shopView(await session.host.leaveDemo()));

/** @throws ProblemError `second.own-folder` */
function checkSecondPlace({ book }: Session, folder: string): void {
  try {
    refuseOwnFolder(book.path, folder);
  } catch (error) {
    if (!(error instanceof BookError)) throw error;
    throw new ProblemError('invalid', 'second.own-folder', {
      field: 'changes.secondBackupFolder',
      with: { path: folder },
    });
  }
}

function isReplaced(session: Session, key: string): boolean {
  return session.settingsReplaced.some(({ setting }) => setting === key);
}

/** Writes settings with an audit entry each. */
function keepSettings(session: Session, settings: Partial<ShopSettings>, initials: string): void {
  const replaced = Object.fromEntries(session.settingsReplaced.map(({ setting, kept }) => [setting, kept]));
  const before = { ...session.settings, ...replaced };
  for (const [key, after] of Object.entries(settings)) {
    session.book.settings.put(key, after);
    session.book.audit.note({
      record: 'setting', recordId: key, act: 'change', before: before[key as keyof ShopSettings], after,
      at: session.now(), by: initials,
    }); // prettier-ignore
  }
}

/** The answer of `shop.get`: the first query on an opened book. */
export function shopView(session: Session): ShopView {
  const cardOf = (species: SpeciesProfile) => speciesCard(species, session.species.own.has(species.code));
  const { settings } = session;
  const season = session.season();
  const newest = newestBackup(session.book);
  return {
    opening: session.opening,
    setUp: settings.shopName !== '',
    demo: session.demo,
    ...(hasLedger(session) ? { ledger: true as const } : {}),
    bookPath: session.book.path,
    today: session.today(),
    season,
    seasons: [...new Set([...session.book.animals.seasons(), season])].sort((a, b) => b - a),
    settings,
    settingsReplaced: [...session.settingsReplaced],
    staff: session.book.settings.staff(),
    species: session.species.offered.map(cardOf),
    speciesAway: session.species.all.filter((one) => !session.species.offered.includes(one)).map(cardOf),
    products: productCards(session),
    recipes: orderRecipes(session),
    extras: pricedLines(session, 'extra'),
    hourLines: pricedLines(session, 'hour'),
    templates: templateCards(session),
    coolers: coolerCards(session),
    fatSources: FATS.map(({ code, name, animal, fat, grade }) => ({ code, name, animal, fat, grade })),
    cautions: CAUTIONS.map((one) => ({ ...one, shown: [...one.shown] })),
    recordSets: [...RECORD_SETS],
    clockBehind: clockBehind(session),
    clockDoubt: clockDoubt(session),
    lastBackup: newest ? { at: newest.at, path: newest.path } : null,
  };
}

/** Allowed clock difference between computers that share a book: our choice, no source. */
const CLOCKS_DIFFER_MS = 60 * 60_000;

/** The newest entry if it is in the future: the computer's clock was set back, or was wrong before. */
/** The ledger's own settings are read by a later room. */
function hasLedger({ book, demo }: Session): boolean {
  return !demo && readSetting(book, 'ledger', v.object({ on: v.boolean() }))?.on === true;
}

function clockBehind(session: Session): string | null {
  const newest = session.demo ? null : lastEntryOf(session.book.db);
  return newest && Date.parse(newest) - Date.parse(session.now()) > CLOCKS_DIFFER_MS ? newest : null;
}
