import * as v from 'valibot';
import type { Book } from '../../book/book.ts';
import { identityOf } from '../../book/file/book-identity.ts';
import type { StationSettings } from '../contract/contract.ts';
import { readSetting } from '../session/settings.ts';

/** Key of the stored settings. */
export const STATIONS = 'stations';
/** Key of the book's lineage: drawn anew when a backup takes the book's place (`door.ts`). */
export const LINEAGE = 'lineage';
/** Our choice among the ports that nothing is registered for; it is part of each station's origin, so it never changes by itself. */
const PORT = 47115;

/** Ports below belong to the system. */
export const port = v.pipe(
  v.number('station.port'),
  v.integer('station.port'),
  v.minValue(1024, 'station.port'),
  v.maxValue(65535, 'station.port'),
);

const stored = v.object({
  on: v.boolean(),
  address: v.nullable(v.string()),
  port,
  pins: v.boolean(),
  phones: v.optional(v.boolean(), false),
});

/** Off until the shop switches it on. */
export function stationSettings(book: Book): StationSettings {
  return (
    readSetting(book, STATIONS, stored) ?? {
      on: false,
      address: null,
      port: PORT,
      pins: false,
      phones: false,
    }
  );
}

/** Which continuation of which book this is. Ids of another one mean other records. */
export function lineageOf(book: Book): string {
  return readSetting(book, LINEAGE, v.string()) ?? identityOf(book.db) ?? '';
}
