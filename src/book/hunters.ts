import type { Db } from './open.ts';

export interface HunterRow {
  id: number;
  name: string;
  phone: string;
  email: string;
  address: string;
  licence: string;
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
  refusesPooling: boolean;
}

/** Letters that Unicode does not take apart into a base and a mark. */
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

/** Folds a name for finding: no case, no accents, single spaces. */
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

const LIMIT = 12;
const MANY = 500;

/** Hunters, found by any part of the name or of the phone number. */
export function hunterRecords(db: Db) {
  const columns = `h.id, h.name, h.phone, h.email, h.address, h.licence, h.refuses_pooling,
    (SELECT count(*) FROM animal a WHERE a.hunter_id = h.id) AS animals,
    (SELECT a.ticket FROM animal a WHERE a.hunter_id = h.id ORDER BY a.id DESC LIMIT 1) AS last_ticket`;
  const one = db.prepare<[number], HunterRow>(`SELECT ${columns} FROM hunter h WHERE h.id = ?`);
  const recent = db.prepare<[], HunterRow>(
    `SELECT ${columns} FROM hunter h ORDER BY h.id DESC LIMIT ${LIMIT}`,
  );
  // Read in the order of the names off the index alone; instr needs no escaping of what was typed.
  const anywhere = db.prepare<{ key: string }, { id: number; starts: 0 | 1 }>(
    `SELECT id, instr(' ' || name_key, ' ' || @key) > 0 AS starts FROM hunter INDEXED BY hunter_by_name
     WHERE instr(name_key, @key) > 0 ORDER BY name_key LIMIT ${MANY}`,
  );
  const wordStarts = db.prepare<{ key: string }, { id: number }>(
    `SELECT id FROM hunter INDEXED BY hunter_by_name
     WHERE instr(' ' || name_key, ' ' || @key) > 0 ORDER BY name_key LIMIT ${LIMIT}`,
  );
  const phoned = db
    .prepare<{ key: string }, number>(
      `SELECT id FROM hunter INDEXED BY hunter_by_phone WHERE instr(phone_key, @key) > 0 LIMIT ${LIMIT}`,
    )
    .pluck();
  const known = (id: number): HunterRow[] => one.all(id);
  const insert = db.prepare(
    `INSERT INTO hunter (name, name_key, phone, phone_key, email, address, licence, refuses_pooling, created_at)
     VALUES (@name, @nameKey, @phone, @phoneKey, @email, @address, @licence, @refusesPooling, @at)`,
  );
  const update = db.prepare(
    `UPDATE hunter SET name = @name, name_key = @nameKey, phone = @phone, phone_key = @phoneKey, email = @email,
       address = @address, licence = @licence, refuses_pooling = @refusesPooling WHERE id = @id`,
  );
  const bound = (fields: HunterFields) => ({
    ...fields,
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
        return phoned
          .all({ key: digits })
          .flatMap(known)
          .sort((a, b) => compareKeys(a.name, b.name));
      // Names of which a word starts with the text come first; among very many the first may not be met yet.
      const found = anywhere.all({ key });
      const [starts, rest] = [
        found.filter(({ starts: yes }) => yes),
        found.filter(({ starts: yes }) => !yes),
      ];
      const first = starts.length < LIMIT && found.length === MANY ? wordStarts.all({ key }) : starts;
      return [...first, ...rest].slice(0, LIMIT).flatMap(({ id }) => known(id));
    },
    add: (fields: HunterFields, at: string): number =>
      Number(insert.run({ ...bound(fields), at }).lastInsertRowid),
    change: (id: number, fields: HunterFields): void => void update.run({ ...bound(fields), id }),
  };
}
