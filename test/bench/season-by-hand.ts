/**
 * The rows that each Season view answers with, as one statement each that a careful hand would write: over the sums and
 * indexes that the program keeps anyway, and with all parts of the answer that SQL can tell. What it cannot (what is
 * believed of yields and fat, forecasts, prices) is left out, and the view does it all the same.
 */
const SEASON = 2026;

/** One part of an answer; the parts of a statement are padded to the same width. */
interface Part {
  columns: readonly string[];
  from: string;
}

function oneStatement(first: string, parts: Readonly<Record<string, Part>>): string {
  const width = Math.max(...Object.values(parts).map(({ columns }) => columns.length));
  const selects = Object.entries(parts).map(([name, { columns, from }]) => {
    const values = Array.from({ length: width }, (_, i) => columns[i] ?? 'NULL');
    return `SELECT '${name}' AS part, ${values.map((value, i) => `${value} AS c${i}`).join(', ')} FROM ${from}`;
  });
  return `${first} ${selects.join('\nUNION ALL\n')}`;
}

/** A quarter of rows that are numbered by `r` from 0 of `n`, between the two that it lies between. */
const quarter = (p: number): string => {
  const rank = `(n - 1) * ${p}`;
  const at = (r: string): string => `max(iif(r = ${r}, share, NULL))`;
  const [low, high] = [at(`CAST(${rank} AS INTEGER)`), at(`min(n - 1, CAST(${rank} AS INTEGER) + 1)`)];
  return `${low} + (${high} - ${low}) * (${rank} - CAST(${rank} AS INTEGER))`;
};
const QUARTERS = [quarter(0.25), quarter(0.5), quarter(0.75)];

const WEIGHED_WHOLE =
  's.finished = 1 AND s.base > 0 AND s.take_home IS NOT NULL AND s.bone IS NOT NULL AND s.sinew IS NOT NULL';
const STANDS = 'NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)';
const SPLITS = ['brought', 'sex', 'age', 'damaged', 'detail', 'cutter'];

const yields = oneStatement(
  `WITH own AS MATERIALIZED (
     SELECT s.animal_id, s.species, s.share, s.brought, s.sex, s.age, s.damaged, s.detail, s.cutter,
       row_number() OVER (PARTITION BY s.species ORDER BY s.share) - 1 AS r, count(*) OVER (PARTITION BY s.species) AS n
     FROM animal_sum s INDEXED BY animal_sum_by_season WHERE s.season = ${SEASON} AND s.share IS NOT NULL),
   parted AS MATERIALIZED (
     SELECT species, what, value, share, row_number() OVER (PARTITION BY species, what, value ORDER BY share) - 1 AS r,
       count(*) OVER (PARTITION BY species, what, value) AS n
     FROM (${SPLITS.map((what) => `SELECT species, '${what}' AS what, ${what} AS value, share FROM own WHERE ${what} IS NOT NULL`).join(' UNION ALL ')}))`,
  {
    counts: {
      columns: [
        'count(*)',
        'total(iif(s.finished = 1, s.take_home, NULL))',
        "count(iif(s.stage IN ('packing', 'ready', 'released') AND s.share IS NULL, 1, NULL))",
      ],
      from: `animal_sum s WHERE s.season = ${SEASON}`,
    },
    seasons: {
      columns: ['species', 'season', 'n', ...QUARTERS],
      from: `(SELECT species, season, share, row_number() OVER (PARTITION BY species, season ORDER BY share) - 1 AS r,
          count(*) OVER (PARTITION BY species, season) AS n
        FROM animal_sum INDEXED BY animal_sum_by_share WHERE share IS NOT NULL) GROUP BY species, season`,
    },
    spreads: {
      columns: ['species', 'n', 'min(share)', ...QUARTERS, 'max(share)', 'avg(share)'],
      from: 'own GROUP BY species',
    },
    splits: {
      columns: ['species', 'what', 'value', 'n', 'min(share)', ...QUARTERS, 'max(share)', 'avg(share)'],
      from: 'parted GROUP BY species, what, value',
    },
    points: {
      columns: ['o.species', 'a.ticket', 'o.share'],
      from: `own o JOIN animal a ON a.id = o.animal_id
        WHERE o.n <= 300 OR CAST(round(round(o.r * 299.0 / (o.n - 1)) * (o.n - 1) / 299.0) AS INTEGER) = o.r`,
    },
  },
); // prettier-ignore

const pounds = oneStatement('', {
  sums: {
    columns: ['species', 'count(*)', 'total(base)', 'total(take_home)', 'total(meat)', 'total(fat)', 'total(bone)', 'total(sinew)',
      'total(damage)', 'total(min(max(rest, 0.0), 0.05 * base))', 'total(max(rest - 0.05 * base, 0.0))', 'total(max(-rest, 0.0))', 'total(packed)'],
    from: `(SELECT s.species, s.base, s.take_home, coalesce(s.trim, s.trim_ground) AS meat, coalesce(s.fat_saved, s.own_fat_ground) AS fat,
        s.bone, s.sinew, s.damage, s.packed, s.base - s.take_home - s.bone - s.sinew - coalesce(s.damage, 0.0) AS rest
      FROM animal_sum s WHERE s.season = ${SEASON} AND ${WEIGHED_WHOLE}) GROUP BY species`,
  },
  others: {
    columns: ['count(*)'],
    from: `animal_sum s WHERE s.season = ${SEASON} AND s.stage IN ('packing', 'ready', 'released') AND NOT coalesce(${WEIGHED_WHOLE}, 0)`,
  },
  ground: {
    columns: ['count(*)', 'total(mine)', 'total(b.bought * mine / b.own)', 'total(b.out * mine / b.own)'],
    from: `(SELECT g.batch_id, sum(g.grams) AS mine FROM animal_sum s JOIN batch_source_sum g ON g.animal_id = s.animal_id
        WHERE g.animal_id > 0 AND ${WEIGHED_WHOLE} AND s.season = ${SEASON} GROUP BY g.batch_id) m
      JOIN batch_sum b ON b.batch_id = m.batch_id WHERE b.state = 'done' AND b.own > 0 AND b.out > 0`,
  },
  income: {
    columns: ['total(b.subtotal_minor)', 'total(s.take_home)'],
    from: `animal_sum s JOIN bill b ON b.animal_id = s.animal_id WHERE s.season = ${SEASON} AND s.take_home > 0 AND ${STANDS}`,
  },
}); // prettier-ignore

const moments = (where: string): Part => ({
  columns: ['count(s.share)', 'avg(s.share)', 'total((s.share - m.m) * (s.share - m.m))'],
  from: `animal_sum s, (SELECT avg(share) AS m FROM animal_sum s WHERE ${where}) m WHERE ${where}`,
});
const compare = oneStatement('', {
  a: moments(`s.share IS NOT NULL AND s.season = ${SEASON} AND s.species = 'elk'`),
  b: moments(`s.share IS NOT NULL AND s.season = ${SEASON} AND s.species = 'mule-deer'`),
});

const fat = oneStatement(
  `WITH chosen AS MATERIALIZED (SELECT b.* FROM batch b WHERE b.season = ${SEASON} AND EXISTS (SELECT 1 FROM batch_animal m WHERE m.batch_id = b.id))`,
  {
    batches: {
      columns: ['b.id', 'b.name', 'b.started_on', 'b.product', 'b.target_fat', "b.plan ->> '$.fat'",
        '(SELECT t.fat FROM fat_test t WHERE t.batch_id = b.id ORDER BY t.id DESC LIMIT 1)'],
      from: 'chosen b',
    },
    sources: {
      columns: ['x.batch_id', 'x.animal_id', 'a.species', 'x.fat_lot_id', 'l.source', 'l.name', 'l.fat', 'l.fat_sd', 'l.cost_minor', 'l.cost_unit', 'x.grams'],
      from: 'chosen b JOIN batch_source_sum x ON x.batch_id = b.id LEFT JOIN animal a ON a.id = x.animal_id LEFT JOIN fat_lot l ON l.id = x.fat_lot_id',
    },
    species: {
      columns: ['m.batch_id', 'a.species'],
      from: '(SELECT id FROM chosen ORDER BY id DESC LIMIT 500) b JOIN batch_animal m ON m.batch_id = b.id JOIN animal a ON a.id = m.animal_id GROUP BY m.batch_id, a.species',
    },
    saved: {
      columns: ['count(*)', 'total(s.fat_saved)', 'total(s.own_fat_ground)'],
      from: `animal_sum s WHERE s.season = ${SEASON} AND (s.fat_saved > 0 OR s.own_fat_ground > 0)`,
    },
  },
); // prettier-ignore

const check = oneStatement('', {
  quotes: {
    columns: ['a.ticket', 'q.name', 's.species', 's.base', 's.take_home', "q.answered ->> '$.takeHomeGrams.low'",
      "q.answered ->> '$.takeHomeGrams.mean'", "q.answered ->> '$.takeHomeGrams.high'", "q.answered ->> '$.hangingGrams.mean'",
      `(SELECT total(x.grams * b.bought / b.own) FROM batch_source_sum x JOIN batch_sum b ON b.batch_id = x.batch_id
        WHERE x.animal_id = s.animal_id AND x.animal_id > 0 AND b.own > 0)`],
    from: `animal_sum s JOIN quote_taken t ON t.animal_id = s.animal_id JOIN quote q ON q.id = t.quote_id JOIN animal a ON a.id = s.animal_id
      WHERE s.season = ${SEASON} AND s.finished = 1 AND s.base > 0 AND s.take_home IS NOT NULL`,
  },
  finished: {
    columns: ['a.ticket', 's.species', 'coalesce(s.ready_on, s.cut_at, s.received_on)', 's.share', 's.base', 's.take_home'],
    from: `animal_sum s JOIN animal a ON a.id = s.animal_id WHERE s.season = ${SEASON} AND s.finished = 1`,
  },
}); // prettier-ignore

const WORKED_ON = `NOT EXISTS (SELECT 1 FROM hold_now n WHERE n.animal_id = s.animal_id AND n.positive)`;
const flow = oneStatement('', {
  days: {
    columns: ['s.received_on', `coalesce(s.cut_at, (SELECT min(w.at) FROM weighing_now w WHERE w.animal_id = s.animal_id AND w.stage = 'grinder'))`,
      's.ready_on', 'd.disposed_on', 's.stage'],
    from: `animal_sum s LEFT JOIN disposal d ON s.stage = 'disposed' AND d.animal_id = s.animal_id WHERE s.season = ${SEASON}`,
  },
  intake: {
    columns: ['s.season', 's.received_on', 'count(*)'],
    from: `animal_sum s WHERE s.season BETWEEN ${SEASON - 5} AND ${SEASON - 1} GROUP BY s.season, s.received_on`,
  },
  waits: {
    columns: ['s.species', 'CAST(julianday(s.ready_on) - julianday(s.received_on) AS INTEGER)', 'count(*)'],
    from: `animal_sum s WHERE s.season = ${SEASON} AND s.stage IN ('ready', 'released') AND s.ready_on >= s.received_on GROUP BY 2, 3`,
  },
  uncut: {
    columns: ['s.species', 'count(*)', 'count(s.base)', 'total(s.base)',
      '(SELECT avg(u.base) FROM animal_sum u WHERE u.season = s.season AND u.species = s.species)'],
    from: `animal_sum s WHERE s.season = ${SEASON} AND s.stage IN ('hanging', 'cutting') AND s.cut_at IS NULL AND ${WORKED_ON} GROUP BY s.species`,
  },
  trim: {
    columns: ['total(s.trim - s.trim_ground)'],
    from: `animal_sum s WHERE s.season = ${SEASON} AND s.stage IN ('hanging', 'cutting', 'packing') AND s.trim > s.trim_ground AND ${WORKED_ON}`,
  },
  batch: { columns: ['avg(own)'], from: `batch_sum WHERE season = ${SEASON} AND state = 'done' AND own > 0` },
}); // prettier-ignore

const costing = oneStatement(
  `WITH standing AS MATERIALIZED (SELECT b.*, s.species, iif(s.finished = 1, s.take_home, NULL) AS take_home
     FROM animal_sum s JOIN bill b ON b.animal_id = s.animal_id WHERE s.season = ${SEASON} AND ${STANDS})`,
  {
    bills: {
      columns: ['b.number', 'b.species', 'b.subtotal_minor', 'b.total_minor', 'b.price_book_id', 'b.take_home',
        "b.amounts ->> '$.hangingGrams'", "b.amounts ->> '$.groundGrams'", "b.amounts ->> '$.products'", "b.amounts ->> '$.fats'", 'q.name',
        "q.answered ->> '$.price.low'", "q.answered ->> '$.price.mean'", "q.answered ->> '$.price.high'", "q.answered ->> '$.takeHomeGrams.low'",
        "q.answered ->> '$.takeHomeGrams.mean'", "q.answered ->> '$.takeHomeGrams.high'"],
      from: 'standing b LEFT JOIN quote q ON q.id = b.quote_id',
    },
    lines: {
      columns: ['l.code', 'l.basis', 'b.price_book_id', 'count(*)', 'sum(l.amount_minor)'],
      from: 'standing b JOIN bill_line l ON l.bill_id = b.id GROUP BY l.code, l.basis, b.price_book_id',
    },
    grinds: { columns: ['product', 'own', 'bought', 'out'], from: `batch_sum WHERE season = ${SEASON} AND state = 'done'` },
    fat: {
      columns: ['s.fat_lot_id', 'b.product', 'sum(s.grams)', 'l.cost_minor', 'l.cost_unit'],
      from: `batch_sum b JOIN batch_source_sum s ON s.batch_id = b.batch_id JOIN fat_lot l ON l.id = s.fat_lot_id
        WHERE b.season = ${SEASON} AND b.state = 'done' AND s.animal_id = 0 GROUP BY s.fat_lot_id, b.product`,
    },
    cut: {
      columns: ['s.base', 's.take_home', `(SELECT total(w.grams) FROM weighing_now w WHERE w.animal_id = s.animal_id AND w.stage = 'packed'
        AND w.product <> 'Ground')`],
      from: `animal_sum s WHERE s.season = ${SEASON} AND s.finished = 1 AND s.take_home > 0 AND s.take_home < s.base`,
    },
  },
); // prettier-ignore

const behind = `SELECT a.ticket, h.name, s.share FROM animal_sum s JOIN animal a ON a.id = s.animal_id JOIN hunter h ON h.id = a.hunter_id
  WHERE s.season = ${SEASON} AND s.species = 'elk' ORDER BY s.share DESC LIMIT 300`;

export const BY_HAND = {
  'season.yields': yields,
  'season.pounds': pounds,
  'season.compare': compare,
  'season.drilldown': behind,
  'season.fat': fat,
  'season.check': check,
  'season.flow': flow,
  'costing.get': costing,
} as const;

export const BENCH_SEASON = SEASON;
