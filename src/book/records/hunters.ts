import { hunterSearch } from './hunter-search.ts';
import type { Db } from '../file/db.ts';

export interface HunterRow {
  id: number;
  name: string;
  phone: string;
  email: string;
  address: string;
  licence: string;
  /** A code, or '' for the shop's. */
  language: string;
  refuses_pooling: number;
  animals: number;
  last_ticket: string | null;
}

export interface HunterFields {
  name: string;
  phone: string;
  email: string;
  address: string;
  licence: string;
  /** A code; '' or none for the shop's. */
  language?: string | undefined;
  refusesPooling: boolean;
}

/** Letters without a Unicode decomposition. */
const WHOLE_LETTERS: Readonly<Record<string, string>> = {
  ø: 'o',
  æ: 'ae',
  œ: 'oe',
  ß: 'ss',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

/** Folds a name for searching: no case, no accents, single spaces. */
export function nameKey(name: string): string {
  return name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[øæœßłđðþı]/g, (letter) => WHOLE_LETTERS[letter] ?? letter)
    .replace(/\s+/g, ' ')
    .trim();
}

/** The digits of a phone number. */
export function phoneKey(phone: string): string {
  return phone.replace(/\D/g, '');
}

function compareKeys(a: string, b: string): number {
  const [one, other] = [nameKey(a), nameKey(b)];
  return one < other ? -1 : one > other ? 1 : 0;
}

const NEWEST = 12;

/** Hunters, found by any part of the name or of the phone number. */
export function hunterRecords(db: Db) {
  const columns = `h.id, h.name, h.phone, h.email, h.address, h.licence, h.language, h.refuses_pooling,
    (SELECT count(*) FROM animal a WHERE a.hunter_id = h.id) AS animals,
    (SELECT a.ticket FROM animal a WHERE a.hunter_id = h.id ORDER BY a.id DESC LIMIT 1) AS last_ticket`;
  const one = db.prepare<[number], HunterRow>(`SELECT ${columns} FROM hunter h WHERE h.id = ?`);
  const recent = db.prepare<[], HunterRow>(
    `SELECT ${columns} FROM hunter h ORDER BY h.id DESC LIMIT ${NEWEST}`,
  );
  const finding = hunterSearch(db);
  const known = (id: number): HunterRow[] => one.all(id);
  const insert = db.prepare(
    `INSERT INTO hunter (name, name_key, phone, phone_key, email, address, licence, language, refuses_pooling, created_at)
     VALUES (@name, @nameKey, @phone, @phoneKey, @email, @address, @licence, @language, @refusesPooling, @at)`,
  );
  const update = db.prepare(
    `UPDATE hunter SET name = @name, name_key = @nameKey, phone = @phone, phone_key = @phoneKey, email = @email,
       address = @address, licence = @licence, language = @language, refuses_pooling = @refusesPooling WHERE id = @id`,
  );
  const bound = (fields: HunterFields) => ({
    ...fields,
    language: fields.language ?? '',
    nameKey: nameKey(fields.name),
    phoneKey: phoneKey(fields.phone),
    refusesPooling: fields.refusesPooling ? 1 : 0,
  });
  return {
    get: (id: number) => one.get(id),
    find(text: string): HunterRow[] {
      const key = nameKey(text);
      if (key === '') return recent.all();
      const digits = phoneKey(text);
      if (digits.length >= 3 && !/\p{L}/u.test(text))
        return finding
          .phoned(digits)
          .flatMap(known)
          .sort((a, b) => compareKeys(a.name, b.name));
      return finding.named(key).flatMap(known);
    },
    add: (fields: HunterFields, at: string): number =>
      Number(insert.run({ ...bound(fields), at }).lastInsertRowid),
    change: (id: number, fields: HunterFields): void => void update.run({ ...bound(fields), id }),
  };
}
