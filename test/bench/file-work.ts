/** Files: a backup beside a plain copy, a table written and read beside the CSV package alone, a spreadsheet beside the season's table. */
import { copyFileSync, fsyncSync, openSync, closeSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { stringify } from 'csv-stringify/sync';
import { HyperFormula } from 'hyperformula';
import { backUp } from '../../src/book/file/backup.ts';
import { toCsv } from '../../src/core/values/csv.ts';
import { quantileRanks } from '../../src/core/stats/quantile.ts';
import {
  summariseDistribution,
  type DistributionSummary,
} from '../../src/core/stats/distribution-summary.ts';
import type { BenchDesk } from './open-desk.ts';
import type { Measure } from './timing.ts';

const ROWS = 100_000;
const SEASON = 2026;

export function fileWork(desk: BenchDesk): { measures: Measure[]; close: () => void } {
  const db = new Database(desk.path, { readonly: true });
  const head = db
    .prepare('SELECT * FROM animal LIMIT 1')
    .columns()
    .map(({ name }) => name);
  const rows = db.prepare(`SELECT * FROM animal LIMIT ${ROWS}`).raw().all() as (string | number | null)[][];
  const sheet = seasonSheet(db);
  const table = seasonTable(db);
  return {
    measures: [
      {
        name: 'back the book up, checked',
        rounds: 3,
        run: () => {
          const { path } = backUp(db, desk.path, new Date());
          rmSync(path);
        },
        baseline: {
          what: 'copying the file',
          run: () => {
            const copy = `${desk.path}.copy`;
            copyFileSync(desk.path, copy);
            const file = openSync(copy, 'r+');
            fsyncSync(file);
            closeSync(file);
            rmSync(copy);
          },
        },
      },
      {
        name: `write ${ROWS.toLocaleString('en')} rows as CSV`,
        rounds: 5,
        run: () => toCsv(head, rows),
        baseline: {
          what: 'the CSV package alone',
          run: () => stringify(rows, { header: true, columns: head, escape_formulas: true }),
        },
        bar: { ratio: 2 },
      },
      {
        name: 'the season’s table by species (n, ends, quarters, mean), read from the book and worked out',
        run: table,
        baseline: { what: 'a spreadsheet engine given the same rows and formulas', run: sheet.open },
        rounds: 5,
        bar: { faster: 20 },
      },
      {
        name: 'the same table after one weight changed, all of it again',
        run: table,
        baseline: { what: 'the open spreadsheet, its species alone', run: sheet.change },
        rounds: 5,
      },
    ],
    close: () => void db.close(),
  };
}

type Line = { species: string } & DistributionSummary;

/** The table that the view of yields shows of each species, without its dots, splits and earlier seasons. */
function seasonTable(db: Database.Database): () => Line[] {
  const shares = db
    .prepare<[number], [string, number]>(
      'SELECT species, share FROM animal_sum WHERE season = ? AND share IS NOT NULL ORDER BY species, share',
    )
    .raw();
  return () =>
    [...Map.groupBy(shares.all(SEASON), ([species]) => species)].flatMap(([species, rows]): Line[] => {
      const spread = summariseDistribution(rows.map(([, share]) => share));
      return spread === null ? [] : [{ species, ...spread }];
    });
}

/**
 * What a shop would have instead: a row for each animal, sorted by species, with its share beside its weights, and below a
 * line for each species over the rows of its own. The engine is handed the rows; ours has to read them.
 * @throws Error when the two tables are not the same
 */
function seasonSheet(db: Database.Database) {
  const rows = db
    .prepare<[number], [string, number, number]>(
      'SELECT species, base, take_home FROM animal_sum WHERE season = ? AND share IS NOT NULL ORDER BY species',
    )
    .raw()
    .all(SEASON);
  const [first, last] = [new Map<string, number>(), new Map<string, number>()];
  rows.forEach(([species], i) => {
    if (!first.has(species)) first.set(species, i + 1);
    last.set(species, i + 1);
  });
  const species = [...first.keys()];
  const sheet = [
    ...rows.map(([name, base, takeHome], i) => [name, base, takeHome, `=C${i + 1}/B${i + 1}`]),
    ...species.map((name) => {
      const own = `D${first.get(name)}:D${last.get(name)}`;
      const n = (last.get(name) ?? 0) - (first.get(name) ?? 0) + 1;
      const quarter = (p: number): string => {
        const { rank, fraction: beyond } = quantileRanks(n, p);
        const next = Math.min(n, rank + 2);
        return `=SMALL(${own},${rank + 1})+(SMALL(${own},${next})-SMALL(${own},${rank + 1}))*${beyond}`;
      };
      return [
        name,
        `=COUNT(${own})`,
        `=MIN(${own})`,
        quarter(0.25),
        quarter(0.5),
        quarter(0.75),
        `=MAX(${own})`,
        `=AVERAGE(${own})`,
      ];
    }),
  ];
  const build = () => HyperFormula.buildFromArray(sheet, { licenseKey: 'gpl-v3' });
  const read = (engine: HyperFormula): Line[] =>
    species.map((name, i) => {
      const [n, low, q1, median, q3, high, mean] = [1, 2, 3, 4, 5, 6, 7].map((col) =>
        Number(engine.getCellValue({ sheet: 0, row: rows.length + i, col })),
      ) as [number, number, number, number, number, number, number];
      return { species: name, n, low, q1, median, q3, high, mean };
    });
  const engine = build();
  refuseOther(seasonTable(db)(), read(engine));
  let changed = 0;
  return {
    open(): Line[] {
      const fresh = build();
      const table = read(fresh);
      fresh.destroy();
      return table;
    },
    change(): Line[] {
      const takeHome = rows[0]?.[2] ?? 0;
      engine.setCellContents({ sheet: 0, row: 0, col: 2 }, takeHome * (1 + (++changed % 2) / 1000));
      return read(engine);
    },
  };
}

function refuseOther(ours: readonly Line[], theirs: readonly Line[]): void {
  for (const line of ours) {
    const other = theirs.find(({ species }) => species === line.species);
    for (const key of ['n', 'low', 'q1', 'median', 'q3', 'high', 'mean'] as const)
      if (!other || Math.abs(line[key] - other[key]) > 1e-9)
        throw new Error(`The spreadsheet has another ${key} of ${line.species}`);
  }
}
