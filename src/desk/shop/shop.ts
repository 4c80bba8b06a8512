import { isDeepStrictEqual } from 'node:util';
import * as v from 'valibot';
import { lastEntryOf } from '../../book/file/backup-check.ts';
import { refuseOwnFolder } from '../../book/file/second-place.ts';
import { BookTrouble } from '../../book/file/trouble.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { newestBackup } from '../session/backup-keeping.ts';
import { refuseCurrency } from '../pricing/account.ts';
import { clockDoubt } from '../session/clock.ts';
import { coolerCards } from '../coolers/coolers.ts';
import { by, needed } from '../input/input.ts';
import { Trouble } from '../contract/problem.ts';
import { host, read, write } from '../session/procedure.ts';
import { CAUTIONS, EXAMPLE_PRICES, FATS, speciesCard } from '../supplied/resources.ts';
import { savePrices } from '../pricing/prices.ts';
import { productCards } from '../pricing/products-shelf.ts';
import { RECORD_SETS } from '../input/record-sets.ts';
import type { DeskRoom } from '../session/room.ts';
import { settingSchemas } from '../session/settings.ts';
import type { ShopLook, ShopSettings } from '../contract/contract.ts';
import { templateCards } from '../shelf/templates-shelf.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';

/** What every screen needs to know of the shop, and which opening of a book the desk works in. */
export const look = read(v.object({}), shopLook, true);

/** First start: a name, a unit and the money, nothing else. */
export const setUp = write(
  v.object({
    shopName: settingSchemas.shopName,
    unit: settingSchemas.unit,
    currency: v.optional(settingSchemas.currency),
    by,
  }),
  (room, input) => {
    const { shopName, unit, currency = room.settings.currency } = input;
    if (currency !== room.settings.currency) refuseCurrency(room, currency);
    keepSettings(
      room,
      { shopName, unit, currency, step: unit === 'lb' ? 0.05 : 0.02, zone: room.settings.zone },
      input.by,
    );
    if (!room.book.prices.inForce(room.today())) {
      savePrices(room, {
        name: 'Example prices',
        validFrom: '2000-01-01',
        taxRule: 'per line',
        example: true,
        lines: EXAMPLE_PRICES[input.unit],
        by: input.by,
      });
    }
    return shopLook(room);
  },
);

export const change = write(
  v.object({ changes: v.partial(v.strictObject(settingSchemas)), by }),
  (room, { changes, by: initials }) => {
    const before = room.settings;
    const { secondBackupFolder: second } = changes;
    if (changes.currency !== undefined && changes.currency !== before.currency)
      refuseCurrency(room, changes.currency);
    if (second && second !== before.secondBackupFolder) checkSecondPlace(room, second);
    const changed = Object.entries(changes).filter(
      ([key, value]) =>
        value !== undefined &&
        // One that was replaced is written even if it is what is gone by already.
        (isReplaced(room, key) || !isDeepStrictEqual(before[key as keyof ShopSettings], value)),
    );
    keepSettings(room, Object.fromEntries(changed), initials);
    return shopLook(room);
  },
);

export const addStaff = write(
  v.object({ initials: v.pipe(needed(6), v.toUpperCase()), name: needed(80), by }),
  (room, input) => {
    const staff = room.book.settings.staff();
    const before = staff.find((one) => one.initials === input.initials);
    if (!before) refuseMoreOfShop('staff', staff.length);
    room.book.settings.addStaff(input.initials, input.name);
    room.book.audit.note({
      record: 'staff',
      recordId: input.initials,
      act: before ? 'change' : 'add',
      ...(before && { before: { name: before.name } }),
      after: { name: input.name },
      at: room.now(),
      by: input.by,
    });
    return shopLook(room);
  },
);

/** Looks around in an invented season; the shop's own book is closed and untouched meanwhile. */
export const openDemo = host(v.object({}), async (room) => shopLook(await room.host.openDemo()));
export const leaveDemo = host(v.object({}), async (room) => shopLook(await room.host.leaveDemo()));

/** @throws Trouble `second.own-folder` */
function checkSecondPlace({ book }: DeskRoom, folder: string): void {
  try {
    refuseOwnFolder(book.path, folder);
  } catch (error) {
    if (!(error instanceof BookTrouble)) throw error;
    throw new Trouble('invalid', 'second.own-folder', {
      field: 'changes.secondBackupFolder',
      with: { path: folder },
    });
  }
}

function isReplaced(room: DeskRoom, key: string): boolean {
  return room.settingsReplaced.some(({ setting }) => setting === key);
}

/** Writes settings, and beside each who changed it from what. */
function keepSettings(room: DeskRoom, settings: Partial<ShopSettings>, initials: string): void {
  const replaced = Object.fromEntries(room.settingsReplaced.map(({ setting, kept }) => [setting, kept]));
  const before = { ...room.settings, ...replaced };
  for (const [key, after] of Object.entries(settings)) {
    room.book.settings.put(key, after);
    room.book.audit.note({
      record: 'setting', recordId: key, act: 'change', before: before[key as keyof ShopSettings], after,
      at: room.now(), by: initials,
    }); // prettier-ignore
  }
}

/** What `shop.look` answers: the first thing that is read of a book that was opened. */
export function shopLook(room: DeskRoom): ShopLook {
  const cardOf = (species: SpeciesProfile) => speciesCard(species, room.species.own.has(species.code));
  const { settings } = room;
  const season = room.season();
  const newest = newestBackup(room.book);
  return {
    opening: room.opening,
    setUp: settings.shopName !== '',
    demo: room.demo,
    bookPath: room.book.path,
    today: room.today(),
    season,
    seasons: [...new Set([...room.book.animals.seasons(), season])].sort((a, b) => b - a),
    settings,
    settingsReplaced: [...room.settingsReplaced],
    staff: room.book.settings.staff(),
    species: room.species.offered.map(cardOf),
    speciesAway: room.species.all.filter((one) => !room.species.offered.includes(one)).map(cardOf),
    products: productCards(room),
    templates: templateCards(room),
    coolers: coolerCards(room),
    fatSources: FATS.map(({ code, name, animal, fat, grade }) => ({ code, name, animal, fat, grade })),
    cautions: CAUTIONS.map((one) => ({ ...one, shown: [...one.shown] })),
    recordSets: [...RECORD_SETS],
    clockBehind: clockBehind(room),
    clockDoubt: clockDoubt(room),
    lastBackup: newest ? { at: newest.at, path: newest.path } : null,
  };
}

/** Clocks of computers that write into one book are not quite the same: our choice, no source. */
const CLOCKS_DIFFER_MS = 60 * 60_000;

/** The newest entry, when it lies in the future: then the computer's clock was set back, or was wrong before. */
function clockBehind(room: DeskRoom): string | null {
  const newest = room.demo ? null : lastEntryOf(room.book.db);
  return newest && Date.parse(newest) - Date.parse(room.now()) > CLOCKS_DIFFER_MS ? newest : null;
}
