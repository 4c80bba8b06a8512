/** What agencies ask a processor to write down, as data, and what an entry lacks by the shop's list. */
import setsJson from '../../../resources/record-fields.json' with { type: 'json' };
import type { OfficerRow } from '../../book/records/record-book.ts';
import { ProblemError } from '../contract/problem.ts';
import type { RecordField, RecordSet } from '../contract/contract.ts';

export const RECORD_SETS = setsJson as readonly RecordSet[];

/** The list of a shop that picked none. */
export const GENERAL_SET = 'general';

/** What a shop may require, in the order in which it is written down. */
export const RECORD_FIELDS: readonly RecordField[] = [
  'address',
  'phone',
  'licence',
  'tag',
  'sex',
  'killDate',
  'killArea',
  'delivererAddress',
  'weight',
];
/** Meat of inspected farm stock was not hunted. */
const OF_THE_HUNT: readonly RecordField[] = ['licence', 'tag', 'killDate', 'killArea'];

/** @throws ProblemError `choice.record-set` */
export function recordSetOf(code: string): RecordSet {
  const found = RECORD_SETS.find((set) => set.code === code);
  if (!found) throw new ProblemError('invalid', 'choice.record-set', { field: 'recordSet' });
  return found;
}

/** What of an agency's list can be missing from an entry; the rest every entry has by itself. */
export function requiredBy(set: Pick<RecordSet, 'asks'>): RecordField[] {
  return RECORD_FIELDS.filter((field) => set.asks.includes(field));
}

type Entry = Pick<
  OfficerRow,
  | 'address'
  | 'phone'
  | 'details_removed_at'
  | 'licence'
  | 'tag'
  | 'sex'
  | 'kill_date'
  | 'kill_area'
  | 'deliverer_name'
  | 'deliverer_address'
  | 'received_grams'
  | 'hanging_grams'
  | 'origin'
>;

/** What an officer would find missing in an entry, by the shop's list. */
export function lacksOf(row: Entry, required: readonly RecordField[]): RecordField[] {
  // What was taken out on purpose, once it need not be kept, is not to be asked for again.
  if (row.details_removed_at !== null) return [];
  const has: Record<RecordField, boolean> = {
    address: row.address !== '',
    phone: row.phone !== '',
    licence: row.licence !== '',
    tag: row.tag !== '',
    sex: row.sex !== 'unknown',
    killDate: row.kill_date !== null,
    killArea: row.kill_area !== '',
    delivererAddress: row.deliverer_name === '' || row.deliverer_address !== '',
    weight: row.received_grams !== null || row.hanging_grams !== null,
  };
  return RECORD_FIELDS.filter(
    (field) =>
      required.includes(field) && !has[field] && !(row.origin === 'farm' && OF_THE_HUNT.includes(field)),
  );
}
