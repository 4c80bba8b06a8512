/** Files: a backup beside a plain copy, a table written and read beside the CSV package alone, a spreadsheet beside the season's table. */
import { copyFileSync, fsyncSync, openSync, closeSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { stringify } from 'csv-stringify/sync';
import { HyperFormula } from 'hyperformula';
import { backUp } from '../../src/book/backup.ts';
import { toCsv } from '../../src/core/csv.ts';
import type { BenchDesk } from './open-desk.ts';
import type { Measure } from './timing.ts';

const ROWS = 100_000;

export function fileWork(desk: BenchDesk): { measures: Measure[]; close: () => void } {
  const db = new Database(desk.path, { readonly: true });
  const head = db
    .prepare('SELECT * FROM animal LIMIT 1')
    .columns()
    .map(({ name }) => name);
  const rows = db.prepare(`SELECT * FROM animal LIMIT ${ROWS}`).raw().all() as (string | number | null)[][];
  const sheet = seasonSheet(db);
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
        name: 'the season’s table by species',
        run: () => desk.call('season.yields', { season: 2026 }),
        baseline: { what: 'a spreadsheet engine on the same rows', run: sheet },
        rounds: 5,
        bar: { faster: 20 },
      },
    ],
    close: () => void db.close(),
  };
}

/** What a shop would have instead: a row for each animal, a share beside it, count, mean and median of each species below. */
function seasonSheet(db: Database.Database): () => unknown {
  const rows = db
    .prepare('SELECT species, base, take_home FROM animal_sum WHERE season = 2026 AND share IS NOT NULL')
    .raw()
    .all() as [string, number, number][];
  const species = [...new Set(rows.map(([name]) => name))];
  const last = rows.length;
  const sheet = [
    ...rows.map(([name, base, takeHome], i) => [name, base, takeHome, `=C${i + 1}/B${i + 1}`]),
    ...species.map((name) => [
      name,
      `=COUNTIF(A1:A${last},"${name}")`,
      `=AVERAGEIF(A1:A${last},"${name}",D1:D${last})`,
      `=MEDIAN(IF(A1:A${last}="${name}",D1:D${last},""))`,
    ]),
  ];
  return () => {
    const engine = HyperFormula.buildFromArray(sheet, { licenseKey: 'gpl-v3', useArrayArithmetic: true });
    const table = species.map((_, i) => engine.getCellValue({ sheet: 0, row: last + i, col: 2 }));
    engine.destroy();
    return table;
  };
}
