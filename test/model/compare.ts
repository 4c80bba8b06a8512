/** The book, read row by row, against the model; and what must hold of every book. */
import type { Driver } from './driver.ts';
import { SMOKEHOUSE_TABLES } from './compare-smokehouse.ts';
import { CRUMB, isInShop, standingOf, type Shop } from './shop.ts';
import { flag, type Row, type Table } from './table.ts';

/** What is not as it should be, in words; empty: all is well. */
export function compare(driver: Driver): string[] {
  const { shop } = driver;
  return [
    ...[...TABLES, ...SMOKEHOUSE_TABLES].flatMap(({ name, sql, model }) =>
      difference(name, driver.rows(sql), model(shop)),
    ),
    ...sumsAsViews(driver),
    ...sumsAsLoops(driver),
    ...invariants(shop),
  ];
}

const TABLES: readonly Table[] = [
  {
    name: 'animal',
    sql: `SELECT id, season, ticket, hunter_id, species, brought, iif(id IN (SELECT animal_id FROM intake_cancel_now), 'canceled', stage) AS stage, detail, tag,
      received_on, kill_date, promised_on FROM animal ORDER BY id`,
    model: ({ book }) => book.animals.map((one) => ({
      id: one.id, season: one.season, ticket: one.ticket, hunter_id: one.hunter, species: one.species, brought: one.brought, stage: one.stage,
      detail: one.detail, tag: one.tag, received_on: one.receivedOn, kill_date: one.killDate, promised_on: one.promisedOn,
    })),
  },
  {
    name: 'former_ticket',
    sql: 'SELECT animal_id, season, ticket FROM former_ticket ORDER BY animal_id, id',
    model: ({ book }) => book.animals.flatMap(({ id, formerTickets }) => formerTickets.map((one) => ({ animal_id: id, ...one }))),
  },
  {
    name: 'hunter',
    sql: 'SELECT id, refuses_pooling, iif(details_removed_at IS NULL, name, NULL) AS name FROM hunter ORDER BY id',
    model: ({ book }) => book.hunters.map((one) => ({ id: one.id, refuses_pooling: flag(one.refusesPooling), name: one.removed ? null : one.name })),
  },
  {
    name: 'weighing',
    sql: `SELECT w.id, animal_id, batch_id, fat_lot_id, stage, part, primal, count, grams, v.weighing_id IS NOT NULL AS voided
      FROM weighing w LEFT JOIN weighing_void v ON v.weighing_id = w.id ORDER BY w.id`,
    model: ({ book }) => book.weighings.map((one) => ({
      id: one.id, animal_id: one.animal, batch_id: one.batch, fat_lot_id: one.lot, stage: one.stage, part: one.part, primal: one.primal,
      count: one.count, grams: one.grams, voided: flag(one.voided),
    })),
  },
  {
    name: 'belonging',
    sql: 'SELECT b.id, animal_id, b.id NOT IN (SELECT id FROM belonging_now) AS voided, b.id IN (SELECT belonging_id FROM belonging_end_now) AS gone FROM belonging b ORDER BY b.id',
    model: ({ book }) => book.belongings.map((one) => ({ id: one.id, animal_id: one.animal, voided: flag(one.voided), gone: flag(one.gone) })),
  },
  {
    name: 'share',
    sql: `SELECT animal_id, json_group_array(hunter_id) AS hunters, (SELECT count(*) FROM share_pickup_now p WHERE p.animal_id = s.animal_id) AS taken
      FROM (SELECT animal_id, hunter_id FROM share_now ORDER BY animal_id, position) s GROUP BY animal_id ORDER BY animal_id`,
    model: ({ book }) => book.shares.map((one) => ({ animal_id: one.animal, hunters: JSON.stringify(one.hunters), taken: one.taken.length })).toSorted((a, b) => a.animal_id - b.animal_id),
  },
  {
    name: 'donation',
    sql: 'SELECT id, animal_id, whole, id NOT IN (SELECT id FROM donation_now) AS voided FROM donation ORDER BY id',
    model: ({ book }) => book.donations.map((one) => ({ id: one.id, animal_id: one.animal, whole: flag(one.whole), voided: flag(one.voided) })),
  },
  {
    name: 'pickup_notice',
    sql: 'SELECT id, animal_id, step, id NOT IN (SELECT id FROM pickup_notice_now) AS voided FROM pickup_notice ORDER BY id',
    model: ({ book }) => book.notices.map((one) => ({ id: one.id, animal_id: one.animal, step: one.step, voided: flag(one.voided) })),
  },
  {
    name: 'part_none',
    sql: 'SELECT n.id, animal_id, part, v.none_id IS NOT NULL AS voided FROM part_none n LEFT JOIN part_none_void v ON v.none_id = n.id ORDER BY n.id',
    model: ({ book }) => book.nones.map((one) => ({ id: one.id, animal_id: one.animal, part: one.part, voided: flag(one.voided) })),
  },
  {
    name: 'fat_lot',
    sql: `SELECT l.id, source IN (SELECT source FROM fat_lot WHERE animal_id IS NOT NULL) AS own, animal_id,
      (SELECT sum(grams) FROM fat_movement m WHERE m.lot_id = l.id) AS left FROM fat_lot l ORDER BY l.id`,
    model: ({ book }) => book.lots.map((one) => ({ id: one.id, own: flag(one.animal !== null), animal_id: one.animal, left: one.left })),
  },
  {
    name: 'batch',
    sql: `SELECT id, name, season, state, (SELECT json_group_array(animal_id) FROM (SELECT animal_id FROM batch_animal m WHERE m.batch_id = b.id ORDER BY 1)) AS animals
      FROM batch b ORDER BY id`,
    model: ({ book }) => book.batches.map((one) => ({
      id: one.id, name: one.name, season: one.season, state: one.done ? 'done' : 'open', animals: JSON.stringify(one.animals.toSorted((a, b) => a - b)),
    })),
  },
  {
    name: 'bill',
    sql: 'SELECT b.id, number, animal_id, total_minor, currency, v.bill_id IS NOT NULL AS voided FROM bill b LEFT JOIN bill_void v ON v.bill_id = b.id ORDER BY b.id',
    model: ({ book }) => book.bills.map((one) => ({
      id: one.id, number: one.number, animal_id: one.animal, total_minor: one.total, currency: one.currency, voided: flag(one.voided),
    })),
  },
  {
    name: 'payment',
    sql: 'SELECT p.id, animal_id, kind, amount_minor, v.payment_id IS NOT NULL AS voided FROM payment p LEFT JOIN payment_void v ON v.payment_id = p.id ORDER BY p.id',
    model: ({ book }) => book.payments.map((one) => ({ id: one.id, animal_id: one.animal, kind: one.kind, amount_minor: one.minor, voided: flag(one.voided) })),
  },
  {
    name: 'hold_now',
    sql: 'SELECT id, animal_id, positive FROM hold_now ORDER BY id',
    model: ({ book }) => book.animals
      .flatMap(({ id, holds }) => holds.map((one) => ({ id: one.id, animal_id: id, standing: standingOf(one) })))
      .filter(({ standing }) => standing !== 'free')
      .map(({ id, animal_id, standing }) => ({ id, animal_id, positive: flag(standing === 'positive') }))
      .sort((a, b) => a.id - b.id),
  },
  {
    name: 'left',
    sql: `SELECT a.id, (SELECT released_on FROM release_now r WHERE r.animal_id = a.id) AS released, (SELECT disposed_on FROM disposal_now d WHERE d.animal_id = a.id) AS disposed
      FROM animal a ORDER BY a.id`,
    model: ({ book }) => book.animals.map((one) => ({ id: one.id, released: one.releasedOn, disposed: one.disposedOn })),
  },
  {
    name: 'price_book',
    sql: 'SELECT id, valid_from, currency, example FROM price_book ORDER BY id',
    model: ({ book }) => book.prices.map((one) => ({ id: one.id, valid_from: one.validFrom, currency: one.currency, example: flag(one.example) })),
  },
  {
    name: 'quote',
    sql: 'SELECT id, name, EXISTS (SELECT 1 FROM quote_taken_now t WHERE t.quote_id = q.id) AS taken FROM quote q ORDER BY id',
    model: ({ book }) => book.quotes.map((one) => ({ id: one.id, name: one.name, taken: flag(one.taken) })),
  },
  {
    name: 'cooler',
    sql: 'SELECT id, name, active FROM cooler ORDER BY id',
    model: ({ book }) => book.coolers.map((one) => ({ id: one.id, name: one.name, active: flag(!one.away) })),
  },
  {
    name: 'call_note',
    sql: 'SELECT animal_id, text FROM call_note ORDER BY id',
    model: ({ book }) => book.notes.map((one) => ({ animal_id: one.animal, text: one.text })),
  },
]; // prettier-ignore

function difference(name: string, found: readonly Row[], wanted: readonly Row[]): string[] {
  const at = Array.from({ length: Math.max(found.length, wanted.length) }, (_, i) => i);
  const first = at.find((i) => !same(found[i], wanted[i]));
  if (first === undefined) return [];
  return [
    `${name}: the book has ${JSON.stringify(found[first])}, the model ${JSON.stringify(wanted[first])}`,
  ];
}

/** As many columns that say the same; sums of grams in another order differ in the last binary digits. */
function same(found: Row | undefined, wanted: Row | undefined): boolean {
  if (!found || !wanted) return false;
  const columns = Object.keys(wanted);
  return Object.keys(found).length === columns.length && columns.every((column) => near(found[column], wanted[column]));
} // prettier-ignore

const near = (a: unknown, b: unknown): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) < HAIR_OF_GRAMS : a === b;
/** Far less than any scale shows; ids and cents are whole. */
const HAIR_OF_GRAMS = 1e-6;

/** Each table of sums against the view that it writes down. */
function sumsAsViews(driver: Driver): string[] {
  return ['animal_sum', 'batch_sum', 'batch_source_sum', 'fat_lot_sum', 'cut_sum'].flatMap((table) => {
    const [kept, now] = [table, `${table}_now`].map((from) =>
      driver.rows(`SELECT * FROM ${from} ORDER BY 1, 2`),
    ) as [Row[], Row[]];
    return difference(`${table} against its view`, kept, now);
  });
}

/** The sums of each animal against plain loops over its weights. */
function sumsAsLoops(driver: Driver): string[] {
  const { shop } = driver;
  const found = driver.rows('SELECT animal_id, received, hanging, trim, trim_ground, packed FROM animal_sum ORDER BY animal_id');
  // A canceled animal is in no sum.
  const wanted = shop.book.animals.filter(({ stage }) => stage !== 'canceled').map(({ id }) => ({
    animal_id: id,
    received: shop.gramsOrNull({ animal: id, stage: 'received' }),
    hanging: shop.gramsOrNull({ animal: id, stage: 'hanging' }),
    trim: shop.gramsOrNull({ animal: id, stage: 'cut', part: 'trim' }),
    trim_ground: shop.grams({ animal: id, stage: 'grinder', part: 'trim' }),
    packed: shop.gramsOrNull({ animal: id, stage: 'packed' }),
  }));
  return difference('animal_sum against loops', found, wanted);
} // prettier-ignore

/** What holds of every shop at every moment. */
function invariants(shop: Shop): string[] {
  const { book, tickets } = shop;
  const wrong: string[] = [];
  const twice = tickets.filter((one, i) => tickets.indexOf(one) !== i);
  if (twice.length > 0) wrong.push(`tickets given twice: ${twice.join(', ')}`);
  for (const { id, came, left } of book.lots) {
    if (left < -CRUMB - HAIR) wrong.push(`${-left} g more left fat lot ${id} than came in`);
    if (left > came + CRUMB + HAIR) wrong.push(`fat lot ${id} holds ${left} g of ${came} g that came in`);
  }
  for (const animal of book.animals) {
    const trim = shop.trimLeft(animal.id);
    if (isInShop(animal) && trim < -CRUMB - HAIR) wrong.push(`${-trim} g more trim of ${animal.ticket} was ground than weighed`);
    const paid = shop.paid(animal.id);
    if (paid < 0) wrong.push(`${-paid} more was refunded for ${animal.ticket} than was paid`);
  }
  for (const { id, name, done, moreOut } of book.batches) {
    const [went, out] = [shop.batchTook(id), shop.batchOut(id)];
    if (done && out > went * (moreOut ? 2 : 1.02) + HAIR) wrong.push(`${out} g came out of ${name}, ${went} g went in`);
  }
  const standing = book.bills.filter(({ voided }) => !voided).map(({ animal }) => animal);
  if (new Set(standing).size !== standing.length) wrong.push('two bills stand for one animal');
  return wrong;
} // prettier-ignore
const HAIR = 0.05;
