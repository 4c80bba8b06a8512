/** Seasons that no shop ever had, written into a book row by row: odd units, slips taken back, weights that are missing. */
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';

const SPECIES = ['elk', 'mule-deer', 'moose', 'white-tail'] as const;
const BROUGHT = ['whole', 'skinned', 'skinned', 'quarters', 'primals', 'boned'] as const;
const STAGES = [
  'hanging',
  'cutting',
  'packing',
  'ready',
  'released',
  'released',
  'released',
  'disposed',
] as const;
const INITIALS = ['', 'AK', 'BO', 'CM'] as const;
const UNITS = { lb: 453.59237, oz: 28.349523125, kg: 1000, g: 1 } as const;
const CURRENCY = 'USD';

/**
 * Makes a book at `path` with a season for each of `count` years from 1950 on, closes it and gives the years. Rows are
 * written with plain SQL, so that whatever keeps sums up to date sees what any program would write. The same seed makes
 * the same book.
 */
export function writeRandomSeasons(path: string, count: number, seed: number, mostAnimals = 10): number[] {
  const book = openRecordBook(path, new Date('2026-11-20T12:00:00Z'), true);
  const years = Array.from({ length: count }, (_, i) => 1950 + i);
  book.change(() => {
    const write = writer(book, seed);
    write.shop();
    for (const year of years) write.season(year, mostAnimals);
  });
  book.close();
  return years;
}

function writer({ db }: Book, seed: number) {
  const { uniform: random } = seededRandom(seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const one = <T>(of: readonly T[]): T => of[whole(0, of.length - 1)] as T;
  const chance = (p: number): boolean => random() < p;
  const at = (day: string): string =>
    `${day}T${String(whole(0, 23)).padStart(2, '0')}:${String(whole(0, 59)).padStart(2, '0')}:00.000Z`;
  const addDays = (day: string, days: number): string =>
    new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
  /** To compile an insertion with all its triggers takes far longer than to run it. */
  const insertions = new Map<string, ReturnType<typeof db.prepare>>();
  const insert = (table: string, row: Record<string, string | number | null>): number => {
    const names = Object.keys(row);
    const sql = `INSERT INTO ${table} (${names.join(', ')}) VALUES (${names.map((name) => `@${name}`).join(', ')})`;
    const insertion = insertions.get(sql) ?? db.prepare(sql);
    insertions.set(sql, insertion);
    return Number(insertion.run(row).lastInsertRowid);
  };
  let hunter = 0;
  let priceBook = 0;
  let billNumber = 0;
  const lots: number[] = [];

  /** A weight as typed in any unit; now and then it is taken back, or put right by another. */
  function weigh(row: Record<string, string | number | null>, grams: number, day: string): void {
    const unit = one(['lb', 'oz', 'kg', 'g'] as const);
    const decimals = unit === 'g' ? 0 : 2;
    const digits = Math.max(1, Math.round((grams / UNITS[unit]) * 10 ** decimals));
    const add = (more: Record<string, string | number | null>): number =>
      insert('weighing', {
        animal_id: null, batch_id: null, fat_lot_id: null, primal: null, product: null, count: null, place: null, ...row,
        typed: String(digits / 10 ** decimals), digits, decimals, unit, grams: (digits / 10 ** decimals) * UNITS[unit],
        source: 'typed', note: '', corrects: null, at: at(day), by: one(INITIALS), ...more,
      }); // prettier-ignore
    const id = add({});
    if (chance(0.85)) return;
    insert('weighing_void', { weighing_id: id, reason: 'slip', at: at(day), by: one(INITIALS) });
    if (chance(0.6))
      add({ corrects: id, grams: ((digits + 1) / 10 ** decimals) * UNITS[unit], digits: digits + 1 });
  }

  function animal(
    year: number,
    number: number,
  ): { id: number; day: string; stage: string; trim: number; species: string } {
    const day = addDays(`${year}-09-15`, whole(0, 80));
    const stage = one(STAGES);
    const brought = one(BROUGHT);
    const species = one(SPECIES);
    const ready = stage === 'ready' || stage === 'released' ? addDays(day, whole(0, 20)) : null;
    const id = insert('animal', {
      season: year, number, ticket: `${year}-${String(number).padStart(4, '0')}`, hunter_id: hunter, species,
      sex: one(['male', 'female', 'unknown']), age: one(['young', 'yearling', 'adult', 'unknown']), brought, origin: 'hunter',
      licence: 'L', tag: 'T', kill_date: null, kill_area: '', received_on: day, promised_on: null, condition: '',
      damage: chance(0.2) ? 'shoulder' : '', detail: one(['detailed', 'quick']), stage, ready_on: ready, created_at: at(day),
    }); // prettier-ignore
    const hanging = between(20_000, 260_000);
    const carcass = (stageOf: string, grams: number): void =>
      weigh({ animal_id: id, stage: stageOf, part: 'carcass' }, grams, day);
    if (chance(0.8)) carcass('received', hanging * between(1, 1.2));
    if (chance(0.8)) carcass('hanging', hanging);
    const later = addDays(day, whole(0, 10));
    const shares = { 'whole cuts': 0.25, trim: 0.3, 'fat saved': 0.02, sinew: 0.1, bone: 0.2, damage: 0.03 };
    let trim = 0;
    if (stage !== 'hanging')
      for (const [part, share] of Object.entries(shares)) {
        if (chance(0.25)) continue;
        for (let tote = whole(1, 2); tote > 0; tote--) {
          const grams = hanging * share * between(0.3, chance(0.03) ? 4 : 0.9);
          if (part === 'trim') trim += grams;
          weigh({ animal_id: id, stage: 'cut', part }, grams, later);
        }
      }
    for (const part of ['fat saved', 'sinew', 'bone', 'damage'])
      if (chance(0.15)) {
        const noneId = insert('part_none', { animal_id: id, part, at: at(later), by: one(INITIALS) });
        if (chance(0.2)) insert('part_none_void', { none_id: noneId, reason: 'slip', at: at(later), by: '' });
      }
    if (stage !== 'hanging' && stage !== 'cutting' && chance(0.7))
      for (const product of ['Steaks and roasts', 'Ground'])
        if (chance(0.6))
          weigh(
            { animal_id: id, stage: 'packed', part: 'package', product, count: whole(1, 30) },
            hanging * between(0.05, 0.3),
            later,
          );
    if (stage === 'disposed')
      insert('disposal', {
        animal_id: id,
        what: 'all',
        how: 'pit',
        reason: 'spoiled',
        disposed_on: later,
        at: at(later),
        by: '',
      });
    if (stage === 'released')
      insert('release', {
        animal_id: id,
        given_to: 'X',
        released_on: addDays(ready ?? day, whole(0, 9)),
        unpaid_override: null,
        note: '',
        at: at(day),
        by: '',
      });
    return { id, day, stage, trim, species };
  }

  function batch(
    year: number,
    number: number,
    owners: readonly { id: number; day: string; trim: number }[],
  ): void {
    const day = owners[0]?.day ?? `${year}-11-01`;
    const target = chance(0.8) ? one([0.05, 0.1, 0.125, 0.2]) : null;
    const id = insert('batch', {
      season: year, number, name: `G${year}-${String(number).padStart(3, '0')}`, product: one(['Ground', 'Summer sausage']),
      target_fat: target, plan: JSON.stringify({ parts: [], fat: target ?? 0.04 }), state: 'open', started_on: day, at: at(day), by: '',
    }); // prettier-ignore
    let total = 0;
    for (const owner of owners) {
      insert('batch_animal', { batch_id: id, animal_id: owner.id });
      const grams = Math.max(500, owner.trim * between(0.5, 1));
      total += grams;
      weigh({ animal_id: owner.id, batch_id: id, stage: 'grinder', part: 'trim' }, grams, day);
    }
    if (chance(0.6))
      weigh(
        { batch_id: id, fat_lot_id: one(lots), stage: 'grinder', part: 'fat added' },
        total * between(0.02, 0.2),
        day,
      );
    if (chance(0.9))
      weigh(
        { batch_id: id, stage: 'packed', part: 'package', product: 'Ground', count: whole(1, 40) },
        total * between(0.9, 1.15),
        day,
      );
    for (let tests = chance(0.5) ? whole(1, 2) : 0; tests > 0; tests--)
      insert('fat_test', {
        batch_id: id,
        fat: between(0.02, 0.25),
        sd: 0.01,
        method: 'kit',
        at: at(addDays(day, 1)),
        by: '',
      });
    if (chance(0.85)) db.prepare("UPDATE batch SET state = 'done' WHERE id = ?").run(id);
  }

  function bill(animalId: number, day: string): void {
    const subtotal = whole(5_000, 60_000);
    const id = insert('bill', {
      number: ++billNumber, animal_id: animalId, price_book_id: priceBook, quote_id: null, amounts: '{"hangingGrams":0,"groundGrams":0}',
      currency: chance(0.95) ? CURRENCY : 'CAD', subtotal_minor: subtotal, tax_minor: 0, total_minor: subtotal, billed_on: day, at: at(day), by: '',
    }); // prettier-ignore
    const cutting = whole(0, subtotal);
    const lines = [
      ['cutting', 'hanging', cutting],
      ['grinding', 'ground', subtotal - cutting],
    ] as const;
    lines.forEach(([code, basis, amount], position) =>
      insert('bill_line', {
        bill_id: id,
        position,
        code,
        label: code,
        basis,
        quantity: 1,
        unit: null,
        unit_price_minor: amount,
        amount_minor: amount,
        tax_minor: 0,
      }),
    );
    if (chance(0.1)) insert('bill_void', { bill_id: id, reason: 'wrong', at: at(day), by: '' });
  }

  return {
    shop(): void {
      hunter = insert('hunter', {
        name: 'Sam Roe', name_key: 'sam roe', phone: '', phone_key: '', email: '', address: '', licence: '', created_at: '2001-01-01T00:00:00.000Z',
      }); // prettier-ignore
      priceBook = insert('price_book', {
        name: 'Prices', valid_from: '2000-01-01', currency: CURRENCY, tax_rule: 'per line', example: 0, at: '2000-01-01T00:00:00.000Z', by: '',
      }); // prettier-ignore
      for (const [i, source] of ['pork-back-fat', 'beef-suet', 'pork-back-fat'].entries())
        lots.push(
          insert('fat_lot', {
            code: `F-${i}`, source, name: source, animal_id: null, fat: 0.8, fat_sd: 0.03, cost_minor: i === 2 ? null : 150, cost_unit: i === 2 ? null : 'lb',
            supplier_lot: '', use_by: null, received_on: '2001-01-01', at: '2001-01-01T00:00:00.000Z', by: '',
          }), // prettier-ignore
        );
    },
    season(year: number, mostAnimals: number): void {
      const animals = Array.from({ length: whole(0, mostAnimals) }, (_, i) => animal(year, i + 1));
      const ground = animals.filter(({ trim, stage }) => trim > 0 && stage !== 'cutting' && chance(0.6));
      for (let first = 0, number = 1; first < ground.length; number++) {
        const owners = whole(1, 3);
        batch(year, number, ground.slice(first, first + owners));
        first += owners;
      }
      for (const { id, day, stage } of animals)
        if (stage === 'released' && chance(0.8)) for (let n = chance(0.1) ? 2 : 1; n > 0; n--) bill(id, day);
    },
  };
}
