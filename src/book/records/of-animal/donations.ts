import type { Db } from '../../file/db.ts';
import type { MassUnit } from '../../../trade/weighing.ts';

export interface DonationRecord {
  id: number;
  animal_id: number;
  ticket: string;
  hunter: string;
  program: string;
  /** 1 if the whole animal was donated. */
  whole: number;
  typed: string;
  unit: MassUnit;
  grams: number;
  confirmation: string;
  pays_minor: number;
  pays_unit: 'lb' | 'kg';
  currency: string;
  donated_on: string;
  why: 'hunter' | 'unclaimed';
  note: string;
  by: string;
  void_reason: string | null;
  void_by: string | null;
}

interface NewDonation {
  animalId: number;
  program: string;
  whole: boolean;
  reading: { typed: string; digits: number; decimals: number; unit: MassUnit };
  grams: number;
  confirmation: string;
  paysMinor: number;
  paysUnit: 'lb' | 'kg';
  currency: string;
  on: string;
  why: DonationRecord['why'];
  note: string;
  at: string;
  by: string;
}

/** Donations of meat through a program, with the program's rate at the time: append-only, voided by another row. */
export function donationRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO donation (animal_id, program, whole, typed, digits, decimals, unit, grams, confirmation, pays_minor, pays_unit,
       currency, donated_on, why, note, at, by)
     VALUES (@animalId, @program, @whole, @typed, @digits, @decimals, @unit, @grams, @confirmation, @paysMinor, @paysUnit,
       @currency, @on, @why, @note, @at, @by)`,
  );
  const addVoid = db.prepare('INSERT INTO donation_void (donation_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const columns = 'd.*, a.ticket, h.name AS hunter, v.reason AS void_reason, v.by AS void_by';
  const from = `FROM donation d JOIN animal a ON a.id = d.animal_id JOIN hunter h ON h.id = a.hunter_id
    LEFT JOIN donation_void v ON v.donation_id = d.id`;
  const get = db.prepare<[number], DonationRecord>(`SELECT ${columns} ${from} WHERE d.id = ?`);
  const ofAnimal = db.prepare<[number], DonationRecord>(
    `SELECT ${columns} ${from} WHERE d.animal_id = ? AND v.donation_id IS NULL ORDER BY d.id`,
  );
  const between = db.prepare<{ from: string; to: string; most: number }, DonationRecord>(
    `SELECT ${columns} ${from} WHERE v.donation_id IS NULL AND d.donated_on BETWEEN @from AND @to
     ORDER BY d.donated_on, d.id LIMIT @most`,
  );
  return {
    add({ reading, whole, ...row }: NewDonation): number {
      return Number(insert.run({ ...row, ...reading, whole: Number(whole) }).lastInsertRowid);
    },
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    get: (id: number) => get.get(id),
    /** Valid ones. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Valid ones in a range of days, up to `most`. */
    between: (days: { from: string; to: string; most: number }) => between.all(days),
  };
}
