/** What the views must say of a book, from its raw rows: loops and sums of plain SQL, past the sums that the book keeps and sends. */
import Database from 'better-sqlite3';
import example from '../../resources/example-costs.json' with { type: 'json' };
import { rawAnimals, standingWeighings, type RawAnimal } from '../desk/season/raw-season.ts';

type Value = string | number | boolean | null;
export type ViewRow = readonly (Value | readonly string[])[];
type Db = Database.Database;

/** The columns that are compared, by view, and the rows that they must have. */
export interface Expected {
  columns: readonly string[];
  rows: readonly ViewRow[];
}

export function expectedRows(path: string): Record<string, Expected> {
  const db = new Database(path, { readonly: true });
  try {
    const animals = standing(db);
    return {
      yield_by_animal: yields(animals),
      fat_by_batch: fat(db, animals),
      money_by_bill: money(db),
      fee_by_line: fees(db),
      quote_accuracy: quotes(db, animals),
      backlog_by_animal: backlogRows(inWork(db, animals)),
      backlog_by_species: backlog(db, animals, true),
      backlog_by_shop: backlog(db, animals, false),
    };
  } finally {
    db.close();
  }
}

/** Animals whose intake was not canceled, for good. */
function standing(db: Db): RawAnimal[] {
  const canceled = new Set(
    db
      .prepare(
        'SELECT animal_id FROM intake_cancel WHERE id NOT IN (SELECT cancel_id FROM intake_cancel_void)',
      )
      .pluck()
      .all(),
  );
  return rawAnimals(db).filter(({ id }) => !canceled.has(id));
}

const days = (from: string, to: string | null): number | null =>
  to === null ? null : (Date.parse(to) - Date.parse(from)) / 86_400_000;

function yields(animals: readonly RawAnimal[]): Expected {
  return {
    columns: [
      'season', 'ticket', 'species', 'brought', 'stage', "to_char(received_on, 'YYYY-MM-DD')", 'days', 'damaged', 'cutter', 'finished',
      'base_grams', 'hanging_grams', 'take_home_grams', 'take_home_share', 'bone_grams', 'damage_grams',
    ],
    rows: animals.map((a) => [
      a.season, a.ticket, a.species, a.brought, a.stage, a.receivedOn, days(a.receivedOn, a.readyOn), a.damaged, a.cutter, a.finished,
      a.base, a.hanging, a.finished ? a.takeHome : null, a.share, a.bone, a.damage,
    ]),
  }; // prettier-ignore
}

/** Grams of each batch: of animals, of bought fat, in packages. */
function batchSums(db: Db): Map<number, { own: number; bought: number; out: number }> {
  const sums = new Map<number, { own: number; bought: number; out: number }>();
  for (const { batch_id: id, animal_id: animal, stage, grams } of standingWeighings(db)) {
    if (id === null) continue;
    const sum = sums.get(id) ?? { own: 0, bought: 0, out: 0 };
    sums.set(id, sum);
    if (stage === 'packed') sum.out += grams;
    else if (stage === 'grinder') sum[animal === null ? 'bought' : 'own'] += grams;
  }
  return sums;
}

function fat(db: Db, animals: readonly RawAnimal[]): Expected {
  const sums = batchSums(db);
  const species = new Map(animals.map((animal) => [animal.id, animal.species]));
  const ticketsOf = db.prepare<[number], { id: number; ticket: string }>(
    'SELECT a.id, a.ticket FROM batch_animal m JOIN animal a ON a.id = m.animal_id WHERE m.batch_id = ? ORDER BY a.id',
  );
  const batches = db
    .prepare<[], { id: number; name: string; season: number; started_on: string; state: string; target_fat: number | null; fat: number | null }>(
      `SELECT b.*, (SELECT fat FROM fat_test t WHERE t.batch_id = b.id AND t.id = (SELECT max(id) FROM fat_test n WHERE n.batch_id = b.id)) AS fat
       FROM batch b`,
    )
    .all(); // prettier-ignore
  return {
    columns: [
      'season', 'batch', "to_char(started_on, 'YYYY-MM-DD')", 'finished', 'target_fat', 'tested_fat', 'own_grams', 'bought_fat_grams',
      'out_grams', 'to_json(species)::text', 'to_json(tickets)::text',
    ],
    rows: batches.map((b) => {
      const { own, bought, out } = sums.get(b.id) ?? { own: 0, bought: 0, out: 0 };
      const inIt = ticketsOf.all(b.id);
      const codes = [...new Set(inIt.flatMap(({ id }) => species.get(id) ?? []))].sort();
      return [
        b.season, b.name, b.started_on, b.state === 'done', b.target_fat, b.fat, own, bought, out,
        JSON.stringify(codes), JSON.stringify(inIt.map(({ ticket }) => ticket)),
      ];
    }),
  }; // prettier-ignore
}

const STANDS = 'b.id NOT IN (SELECT bill_id FROM bill_void)';

function money(db: Db): Expected {
  const rows = db
    .prepare(
      `SELECT a.season, b.number, a.ticket, a.species, b.currency, b.subtotal_minor, b.tax_minor, b.total_minor,
         (SELECT coalesce(sum(CASE kind WHEN 'refund' THEN -amount_minor ELSE amount_minor END), 0) FROM payment p
           WHERE p.animal_id = a.id AND p.id NOT IN (SELECT payment_id FROM payment_void)),
         q.name, q.answered ->> '$.price.low', q.answered ->> '$.price.high'
       FROM bill b JOIN animal a ON a.id = b.animal_id
         LEFT JOIN quote q ON q.id = b.quote_id WHERE ${STANDS}`,
    )
    .raw()
    .all() as ViewRow[];
  return {
    columns: [
      'season', 'number', 'ticket', 'species', 'currency', 'subtotal_minor', 'tax_minor', 'total_minor', 'paid_minor', 'quote',
      'quoted_low_minor', 'quoted_high_minor', 'within_quote',
    ],
    rows: rows.map((row) => {
      const [total, low, high] = [Number(row[7]), row[10], row[11]];
      return [...row, low === null ? null : total >= Number(low) && total <= Number(high)];
    }),
  }; // prettier-ignore
}

function fees(db: Db): Expected {
  return {
    columns: ['season', 'ticket', 'position', 'code', 'basis', 'quantity', 'amount_minor', 'tax_minor'],
    rows: db
      .prepare(
        `SELECT a.season, a.ticket, l.position, l.code, l.basis, l.quantity, l.amount_minor, l.tax_minor
         FROM bill_line l JOIN bill b ON b.id = l.bill_id JOIN animal a ON a.id = b.animal_id WHERE ${STANDS}`,
      )
      .raw()
      .all() as ViewRow[],
  };
}

function quotes(db: Db, animals: readonly RawAnimal[]): Expected {
  const byId = new Map(animals.map((animal) => [animal.id, animal]));
  const added = addedBesides(db);
  const taken = db
    .prepare<[], { id: number; name: string; low: number; mean: number; high: number }>(
      `SELECT t.animal_id AS id, q.name, q.answered ->> '$.takeHomeGrams.low' AS low, q.answered ->> '$.takeHomeGrams.mean' AS mean,
         q.answered ->> '$.takeHomeGrams.high' AS high FROM quote_taken t JOIN quote q ON q.id = t.quote_id`,
    )
    .all();
  return {
    columns: ['season', 'ticket', 'species', 'quote', 'quoted_low_grams', 'quoted_high_grams', 'take_home_grams', 'held', 'off_share'],
    rows: taken.flatMap(({ id, name, low, mean, high }): ViewRow[] => {
      const animal = byId.get(id);
      if (!animal?.finished || !animal.base || animal.takeHome === null) return [];
      const home = animal.takeHome + (added.get(id) ?? 0);
      return [
        [animal.season, animal.ticket, animal.species, name, low, high, home, home >= low && home <= high, home / mean - 1],
      ];
    }),
  }; // prettier-ignore
}

/** Bought fat, and what the smokehouse added less what it lost, shared out by the meat put in. */
function addedBesides(db: Db): Map<number, number> {
  const sums = batchSums(db);
  const weighed = standingWeighings(db);
  const grams = new Map(weighed.map((row) => [row.id, row.grams]));
  const changes = new Map<number, number>();
  const made = db
    .prepare<[], { id: number; batch_id: number }>(
      'SELECT id, batch_id FROM made_batch WHERE id NOT IN (SELECT made_id FROM made_batch_void)',
    )
    .all();
  for (const { id, batch_id: batch } of made) {
    const packages = (db.prepare('SELECT weighing_id FROM made_package WHERE made_id = ?').pluck().all(id) as number[]).filter((one) =>
      grams.has(one),
    ); // prettier-ignore
    const start = db.prepare('SELECT grams FROM made_start WHERE made_id = ? ORDER BY id DESC').pluck().get(id) as number | undefined;
    if (packages.length === 0 || start === undefined) continue;
    const packed = packages.reduce((total, one) => total + (grams.get(one) ?? 0), 0);
    changes.set(batch, (changes.get(batch) ?? 0) + packed - start);
  } // prettier-ignore
  const added = new Map<number, number>();
  for (const { batch_id: batch, animal_id: animal, stage, grams: put } of weighed) {
    if (batch === null || animal === null || stage !== 'grinder') continue;
    const { own, bought } = sums.get(batch) ?? { own: 0, bought: 0 };
    added.set(animal, (added.get(animal) ?? 0) + (put / own) * (bought + (changes.get(batch) ?? 0)));
  }
  return added;
}

interface Waiting extends RawAnimal {
  uncut: boolean;
  trimLeft: number;
}

function inWork(db: Db, animals: readonly RawAnimal[]): Waiting[] {
  const positive = new Set(
    db
      .prepare(
        `SELECT h.animal_id FROM hold h WHERE
           coalesce((SELECT result FROM hold_result r WHERE r.hold_id = h.id ORDER BY id DESC), (SELECT outcome FROM hold_end e WHERE e.hold_id = h.id ORDER BY id DESC)) = 'positive'`,
      )
      .pluck()
      .all(),
  );
  const weighed = Map.groupBy(standingWeighings(db), (row) => row.animal_id);
  return animals
    .filter(({ id, stage }) => ['hanging', 'cutting', 'packing'].includes(stage) && !positive.has(id))
    .map((animal) => {
      const rows = weighed.get(animal.id) ?? [];
      const sum = (stage: string): number =>
        rows.reduce((total, row) => total + (row.stage === stage && row.part === 'trim' ? row.grams : 0), 0);
      return {
        ...animal,
        uncut:
          animal.stage !== 'packing' &&
          rows.every(({ stage }) => !['primal', 'cut', 'packed'].includes(stage)),
        trimLeft: Math.max(0, sum('cut') - sum('grinder')),
      };
    });
}

function backlogRows(waiting: readonly Waiting[]): Expected {
  return {
    columns: ['season', 'ticket', 'species', 'stage', 'uncut', 'base_grams', 'trim_left_grams'],
    rows: waiting.map((a) => [a.season, a.ticket, a.species, a.stage, a.uncut, a.base, a.trimLeft]),
  };
}

function backlog(db: Db, animals: readonly RawAnimal[], bySpecies: boolean): Expected {
  const typed = db.prepare("SELECT value FROM setting WHERE key = 'costing'").pluck().get() as
    | string
    | undefined;
  const { cutting, grinding } = ((typed ? JSON.parse(typed) : example) as typeof example).services;
  const groups = Map.groupBy(inWork(db, animals), (a) => `${a.season} ${bySpecies ? a.species : ''}`);
  const batches = batchSums(db);
  const done = db.prepare<[], { id: number; season: number }>("SELECT id, season FROM batch WHERE state = 'done'").all(); // prettier-ignore
  const mean = (values: readonly number[], other: number): number =>
    values.length === 0 ? other : values.reduce((a, b) => a + b, 0) / values.length;
  return {
    columns: [
      'season', ...(bySpecies ? ['species'] : []), 'animals', 'weighed_grams', 'unweighed', 'expected_grams', 'cut_hours', 'trim_grams',
      'grind_hours', 'own_minutes',
    ],
    rows: [...groups.values()].map((group) => {
      const [{ season, species }] = group as [Waiting];
      const uncut = group.filter((a) => a.uncut);
      const usual = (a: RawAnimal): number =>
        mean(
          animals.flatMap((b) => (b.season === a.season && b.species === a.species && b.base !== null ? [b.base] : [])),
          example.weighed.cutting.receivedGrams,
        );
      const grams = uncut.reduce((total, a) => total + (a.base ?? 0), 0);
      const unweighed = uncut.filter(({ base }) => base === null);
      const expected = grams + unweighed.reduce((total, a) => total + usual(a), 0);
      const trim = group.reduce((total, a) => total + a.trimLeft, 0);
      const usualBatch = mean(
        done.flatMap((b) => (b.season === season && (batches.get(b.id)?.own ?? 0) > 0 ? [batches.get(b.id)?.own ?? 0] : [])),
        example.weighed.grinding.receivedGrams,
      );
      return [
        season, ...(bySpecies ? [species] : []), uncut.length, grams, unweighed.length, expected,
        (uncut.length * cutting.minutesPerAnimal + (expected / 1000) * cutting.minutesPerKg) / 60, trim,
        (Math.ceil(trim / usualBatch) * grinding.minutesPerAnimal + (trim / 1000) * grinding.minutesPerKg) / 60, typed !== undefined,
      ];
    }),
  }; // prettier-ignore
}

/**
 * Rows of one side that the other lacks. Decimals are equal if they differ by less than a billionth: sums depend on the order in
 * which they were added up.
 */
export function differences(found: readonly ViewRow[], wanted: readonly ViewRow[]): string[] {
  const textOf = (row: ViewRow): string =>
    JSON.stringify(
      row.map((x) => (typeof x === 'number' && !Number.isInteger(x) ? Number(x.toPrecision(6)) : x)),
    );
  const sorted = (rows: readonly ViewRow[]): ViewRow[] =>
    rows.toSorted((a, b) => (textOf(a) < textOf(b) ? -1 : 1));
  const [here, there] = [sorted(found), sorted(wanted)];
  const isAlike = (a: unknown, b: unknown): boolean =>
    typeof a === 'number' && typeof b === 'number'
      ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a))
      : a === b;
  return [
    ...(here.length === there.length ? [] : [`${here.length} and ${there.length} rows`]),
    ...here.flatMap((row, i) =>
      row.every((x, j) => isAlike(x, there[i]?.[j]))
        ? []
        : [`${JSON.stringify(row)}, not ${JSON.stringify(there[i])}`],
    ),
  ];
}
