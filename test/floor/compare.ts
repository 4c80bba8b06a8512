/** Holds the book of a day on the floor against each station's own list. */
import Database from 'better-sqlite3';
import { photoFolder, readPhoto } from '../../src/book/file/photos/files.ts';
import type { FloorStation } from './floor-station.ts';

export interface Compared {
  /** Entries of stations that the book does not have, and photographs without the file that they name. */
  lost: number;
  /** Weights and photographs beyond those that stations entered. */
  doubled: number;
  /** Stations whose entries stand in the book in another order. */
  outOfOrder: number;
  /** Animals that a hunter's own check-in became. */
  ownCheckIns: number;
  photos: number;
}

/** Calls that add one row each. */
const WEIGH = ['table.weigh', 'intake.takeIn', 'grinder.weighIn', 'grinder.pack'];
const PHOTOGRAPH = ['photos.add'];

export function compare(bookPath: string, stations: readonly Pick<FloorStation, 'entries'>[]): Compared {
  const db = new Database(bookPath, { readonly: true });
  const kept = db
    .prepare<[], { line: string; entry: string }>(
      'SELECT l.line, e.entry FROM station_entry e JOIN station_line l ON l.id = e.line_id ORDER BY e.line_id, e.number',
    )
    .all();
  const count = (sql: string) => db.prepare<[], number>(sql).pluck().get() ?? 0;
  const weighings = count('SELECT count(*) FROM weighing');
  const ownCheckIns = count('SELECT count(DISTINCT animal_id) FROM draft_now WHERE animal_id IS NOT NULL');
  const photos = db.prepare<[], string>('SELECT digest FROM photograph').pluck().all();
  db.close();
  const folder = photoFolder(bookPath);
  let lost = photos.filter((digest) => readPhoto(folder, digest).state !== 'here').length;
  let outOfOrder = 0;
  for (const { entries } of stations) {
    const own = entries.map(({ id }) => id);
    const inBook = kept.filter(({ line }) => line === entries[0]?.line).map(({ entry }) => entry);
    lost += own.filter((id) => !inBook.includes(id)).length;
    if (inBook.join() !== own.join()) outOfOrder += 1;
  }
  const saved = stations.flatMap(({ entries }) => entries.filter(({ outcome }) => outcome.state === 'saved'));
  const by = (calls: readonly string[]) => saved.filter(({ name }) => calls.includes(name)).length;
  const doubled = weighings - by(WEIGH) + photos.length - by(PHOTOGRAPH);
  return { lost, doubled, outOfOrder, ownCheckIns, photos: photos.length };
}
