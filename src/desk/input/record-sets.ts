/** The agencies' lists of required fields, as data, and what an entry lacks by the shop's list. */
import setsJson from '../../../resources/record-fields.json' with { type: 'json' };
import type { OfficerRow } from '../../book/records/record-entries.ts';
import { ProblemError } from '../contract/problem.ts';
import type { RecordField, RecordSet } from '../contract/contract.ts';

export const RECORD_SETS = setsJson as readonly RecordSet[];

/** The default list. */
export const GENERAL_SET = 'general';

/** The fields that a shop may require, in the order of entry. */
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

/** The fields of an agency's list that can be missing from an entry; all others are always present. */
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

/** The missing fields of an entry, by the shop's list. */
export function lacksOf(row: Entry, required: readonly RecordField[]): RecordField[] {
  // Details that were removed after their retention period are not missing.
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
