import * as v from 'valibot';
import type { OfficerRow } from '../book/record-book.ts';
import { nameKey } from '../book/hunters.ts';
import { text } from './input.ts';
import { read } from './procedure.ts';
import type { RecordRow } from './shapes.ts';

/** The record book of a season, with what an officer would find missing in each entry. */
export const records = read(
  v.object({ season: v.optional(v.pipe(v.number(), v.integer())), text: text(200) }),
  (room, input): RecordRow[] => {
    const key = nameKey(input.text);
    return room.book.records
      .ofSeason(input.season ?? room.season())
      .filter(
        (row) =>
          key === '' ||
          row.ticket.includes(key) ||
          nameKey(row.hunter).includes(key) ||
          row.tag.toLowerCase().includes(key),
      )
      .map((row) => ({
        id: row.id,
        ticket: row.ticket,
        hunter: row.hunter,
        address: row.address,
        licence: row.licence,
        tag: row.tag,
        speciesName: room.species.of(row.species).name,
        sex: row.sex,
        killDate: row.kill_date,
        killArea: row.kill_area,
        receivedOn: row.received_on,
        releasedOn: row.released_on,
        releasedTo: row.given_to,
        disposedOn: row.disposed_on,
        disposedHow: row.disposed_how,
        stage: row.stage,
        lacks: lacks(row),
      }));
  },
);

/** Farm stock needs no licence, tag or kill report. */
function lacks(row: OfficerRow): string[] {
  const wanted =
    row.origin === 'farm'
      ? { address: row.address }
      : {
          address: row.address,
          licence: row.licence,
          tag: row.tag,
          killDate: row.kill_date,
          killArea: row.kill_area,
        };
  return Object.entries(wanted).flatMap(([field, value]) => (value ? [] : [field]));
}
