import * as v from 'valibot';
import { backUp, listBackups } from '../book/backup.ts';
import type { SpeciesProfile } from '../core/species.ts';
import { coolerCards } from './coolers.ts';
import { by, needed } from './input.ts';
import { host, read, write } from './procedure.ts';
import { CAUTIONS, EXAMPLE_PRICES, FATS, speciesCard } from './resources.ts';
import { savePrices } from './prices.ts';
import { productCards } from './products-shelf.ts';
import type { DeskRoom } from './room.ts';
import { settingSchemas } from './settings.ts';
import type { ShopLook } from './shapes.ts';
import { templateCards } from './templates-shelf.ts';

/** What every screen needs to know of the shop. */
export const look = read(v.object({}), shopLook);

/** First start: a name and a unit, nothing else. */
export const setUp = write(
  v.object({ shopName: settingSchemas.shopName, unit: settingSchemas.unit, by }),
  (room, input) => {
    room.book.settings.put('shopName', input.shopName);
    room.book.settings.put('unit', input.unit);
    room.book.settings.put('step', input.unit === 'lb' ? 0.05 : 0.02);
    room.book.settings.put('zone', room.settings.zone);
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
    room.forget();
    return shopLook(room);
  },
);

export const change = write(
  v.object({ changes: v.partial(v.strictObject(settingSchemas)), by }),
  (room, { changes, by: initials }) => {
    const before = room.settings;
    const changed = Object.entries(changes).filter(
      ([key, value]) => value !== undefined && before[key as keyof typeof before] !== value,
    );
    for (const [key, value] of changed) {
      room.book.settings.put(key, value);
      room.book.audit.note({
        record: 'setting', recordId: key, act: 'change', before: before[key as keyof typeof before], after: value,
        at: room.now(), by: initials,
      }); // prettier-ignore
    }
    room.forget();
    return shopLook(room);
  },
);

export const addStaff = write(
  v.object({ initials: v.pipe(needed(6), v.toUpperCase()), name: needed(80), by }),
  (room, input) => {
    room.book.settings.addStaff(input.initials, input.name);
    return shopLook(room);
  },
);

/** Looks around in an invented season; the shop's own book is closed and untouched meanwhile. */
export const openDemo = host(v.object({}), async (room) => shopLook(await room.host.openDemo()));
export const leaveDemo = host(v.object({}), async (room) => shopLook(await room.host.leaveDemo()));

/** `VACUUM INTO` may not run inside a transaction, so this is no `write`. */
export const backUpNow = host(v.object({}), (room) => {
  const { at, path } = backUp(room.book.db, room.book.path, new Date(room.now()));
  return { at, path };
});

export const backups = read(v.object({}), (room) => listBackups(room.book.path));

function shopLook(room: DeskRoom): ShopLook {
  const cardOf = (species: SpeciesProfile) => speciesCard(species, room.species.own.has(species.code));
  const { settings } = room;
  const season = room.season();
  const newest = listBackups(room.book.path)[0];
  return {
    setUp: settings.shopName !== '',
    demo: room.demo,
    bookPath: room.book.path,
    today: room.today(),
    season,
    seasons: [...new Set([...room.book.animals.seasons(), season])].sort((a, b) => b - a),
    settings,
    staff: room.book.settings.staff(),
    species: room.species.offered.map(cardOf),
    speciesAway: room.species.all.filter((one) => !room.species.offered.includes(one)).map(cardOf),
    products: productCards(room),
    templates: templateCards(room),
    coolers: coolerCards(room),
    fatSources: FATS.map(({ code, name, animal, fat }) => ({ code, name, animal, fat })),
    cautions: CAUTIONS.map(({ code, title, text, source }) => ({ code, title, text, source })),
    lastBackup: newest ? { at: newest.at, path: newest.path } : null,
  };
}
