/** The smokehouse: the sheet of a batch, and a cook's log of ten thousand readings, each beside the bare work. */
import { copyFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse/sync';
import type { CallInput } from '../../src/bridge/contract.ts';
import { timeTable } from '../../src/desk/supplied/smokehouse.ts';
import { CASING } from '../desk/smokehouse/load-of.ts';
import { PINK, PLAIN, SPICE } from '../desk/recipes/recipe-of.ts';
import type { BenchDesk } from './open-desk.ts';
import { animalToWeigh } from './desk-work.ts';
import type { Measure } from './timing.ts';

const READINGS = 10_000;
const SPICES = 12;
const MINUTE = 60_000;
/** Before the day on which the bench's clock stands. */
const FROM = Date.parse('2026-11-06T06:00:00Z');

export async function smokehouseWork(desk: BenchDesk): Promise<{ measures: Measure[]; close: () => void }> {
  const { madeId, loadId, batchId, recipeId } = await madeBatches(desk);
  const file = logOf(READINGS);
  let logs = 0;
  let upload = 0;
  const bring = async (): Promise<void> => {
    upload = await uploaded(desk, file + '\n'.repeat((logs += 1)));
  };
  const importIt = () =>
    desk.call('loads.importLog', { id: loadId, upload, probe: `P${logs}`, phase: 'both' });
  await bring();
  const { id: logId } = await importIt();
  const judged = await desk.call('loads.open', { oven: 'Second', madeIds: [await another(desk, recipeId)] });
  upload = await uploaded(desk, file);
  await desk.call('loads.importLog', { id: judged.id, upload, probe: 'P1', phase: 'both' });
  const bare = bareWork(desk.path);
  return {
    measures: [
      {
        name: 'batch sheet',
        run: () => desk.call('made.plan', { id: madeId }),
        baseline: { what: 'its rows by prepared SQL, multiplied', run: () => bare.sheet(batchId, recipeId) },
        bar: { ratio: 2 },
      },
      {
        name: `judge a log of ${READINGS.toLocaleString('en')} readings`,
        run: () => desk.call('loads.judge', { id: judged.id }),
        baseline: { what: 'one loop for each row of the table', run: () => bare.judge(logId) },
        bar: { ratio: 2 },
      },
      {
        name: `import a log of ${READINGS.toLocaleString('en')} readings`,
        rounds: 7,
        before: bring,
        run: importIt,
        baseline: {
          what: 'the CSV package and prepared INSERTs in one transaction',
          run: () => bare.insert(file),
        },
        bar: { ratio: 2 },
      },
    ],
    close: bare.close,
  };
}

/** A cured batch with a dozen spices that is not started yet, and a stuffed one in a load. */
async function madeBatches(desk: BenchDesk) {
  const add = async (ingredient: CallInput<'recipes.saveIngredient'>['ingredient']): Promise<number> =>
    (await desk.call('recipes.saveIngredient', { ingredient })).id;
  const cure = await add({ ...PINK, name: 'Bench cure' });
  const line = { unit: 'oz', per: '100 lb', into: 'meat' } as const;
  const spices: { ingredientId: number; role: 'seasoning'; typed: string }[] = [];
  for (let i = 0; i < SPICES; i++)
    spices.push({
      ingredientId: await add({ ...SPICE, name: `Bench spice ${i}` }),
      role: 'seasoning',
      typed: String(i + 1),
    });
  const { id: recipeId } = await desk.call('recipes.save', {
    name: 'Bench summer sausage', product: 'Summer sausage', reason: '',
    body: {
      ...PLAIN, method: 'mixed-in', class: 'ground', finish: 'cooked', lossKind: 'cooked', keep: 'refrigerated', casing: CASING,
      additions: [{ ingredientId: cure, role: 'cure', typed: '4', ...line }, ...spices.map((one) => ({ ...one, ...line }))],
    },
  }); // prettier-ignore
  const first = await opened(desk, recipeId);
  const stuffed = await another(desk, recipeId);
  const { id: loadId } = await desk.call('loads.open', { oven: 'First', madeIds: [stuffed] });
  return { madeId: first.id, batchId: first.batchId, recipeId, loadId };
}

async function opened(desk: BenchDesk, recipeId: number): Promise<{ id: number; batchId: number }> {
  const animalId = await animalToWeigh(desk);
  await desk.call('table.weigh', { animalId, stage: 'cut', part: 'trim', typed: '100' });
  const made = await desk.call('made.open', { recipeId, animals: [animalId] });
  await desk.call('grinder.weighIn', { batchId: made.batchId, animalId, part: 'trim', typed: '100' });
  return made;
}

async function another(desk: BenchDesk, recipeId: number): Promise<number> {
  const { id } = await opened(desk, recipeId);
  await desk.call('made.start', { id });
  const { sheet } = await desk.call('made.get', { id });
  for (const { ingredientId, grams } of sheet?.amounts ?? [])
    await desk.call('made.weigh', { id, ingredientId, typed: String(grams), lot: 'A-1' });
  await desk.call('made.stage', { id, stage: 'stuffed', typed: '100' });
  return id;
}

function logOf(readings: number): string {
  const rows = Array.from({ length: readings }, (_, i) => {
    const moment = new Date(FROM + i * (MINUTE / 2)).toISOString();
    const f = 40 + 122 * Math.sin((Math.PI * i) / readings);
    return `${moment.slice(5, 7)}/${moment.slice(8, 10)}/${moment.slice(0, 4)},${moment.slice(11, 19)},${f.toFixed(1)}`;
  });
  return `Date,Time,Temp (F)\n${rows.join('\n')}\n`;
}

const PIECE = 300_000;
async function uploaded(desk: BenchDesk, content: string): Promise<number> {
  const bytes = Buffer.from(content);
  const { upload } = await desk.call('import.begin', { name: 'cook.csv' });
  for (let from = 0; from < bytes.length; from += PIECE) {
    const base64 = bytes.subarray(from, from + PIECE).toString('base64');
    await desk.call('import.addPiece', { upload, from, base64 });
  }
  return upload;
}

/** The same rows by hand in a copy of the book, with its durability, without checks, findings and trail. */
function bareWork(book: string) {
  const path = `${book}.smoked`;
  const open = new Database(book);
  open.pragma('wal_checkpoint(TRUNCATE)');
  open.close();
  copyFileSync(book, path);
  const db = new Database(path);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  const meat = db.prepare<[number], { grams: number }>("SELECT grams FROM weighing_now WHERE batch_id = ? AND stage = 'grinder'");
  const others = db.prepare('SELECT * FROM made_batch_now m LEFT JOIN made_start s ON s.made_id = m.id WHERE m.batch_id = ?');
  const recipe = db.prepare<[number], string>('SELECT body FROM recipe_version WHERE recipe_id = ? ORDER BY id DESC LIMIT 1').pluck();
  const packets = db.prepare<[], { id: number; nitrite: number | null }>(
    'SELECT i.id, v.nitrite, v.parts, v.allergens, v.name FROM ingredient i JOIN ingredient_version v ON v.id = (SELECT max(x.id) FROM ingredient_version x WHERE x.ingredient_id = i.id)',
  );
  const readings = db.prepare<[number], { read_at: string; value: number }>('SELECT id, read_at, typed, value FROM load_reading WHERE log_id = ? ORDER BY id');
  const log = db.prepare("INSERT INTO load_log (load_id, phase, probe, degrees, source, file, sha256, at, by) SELECT load_id, phase, probe, degrees, source, file, sha256, at, by FROM load_log LIMIT 1");
  const insert = db.prepare("INSERT INTO load_reading (log_id, read_at, typed, value, at, by) VALUES (?, ?, ?, ?, '2026-11-14T12:00:00.000Z', 'LB')");
  const verdict = db.prepare("INSERT INTO load_verdict (load_id, cook, cooling, basis, body, at, by) SELECT load_id, 'not-proven', 'not-proven', '', '{}', at, by FROM load_log WHERE id = ?");
  const table = timeTable();
  return {
    sheet(batchId: number, recipeId: number): number[] {
      const grams = meat.all(batchId).reduce((sum, row) => sum + row.grams, 0);
      others.all(batchId);
      const strengths = new Map(packets.all().map(({ id, nitrite }) => [id, nitrite]));
      const { additions } = JSON.parse(recipe.get(recipeId) ?? '{}') as { additions: { ingredientId: number; typed: string }[] };
      return additions.map(({ ingredientId, typed }) => Number(typed) * 0.000625 * grams * (1 + (strengths.get(ingredientId) ?? 0)));
    },
    judge(logId: number): number {
      const points = readings.all(logId).map(({ read_at: at, value }) => ({ at: Date.parse(at), f: value }));
      let met = 0;
      for (const row of table.rows) {
        let since: number | null = null;
        for (const { at, f } of points) {
          if (f < row.f) since = null;
          else since ??= at;
          if (since !== null && at - since >= row.log65 * 1000) met += 1;
        }
      }
      verdict.run(logId);
      return met;
    },
    insert: db.transaction((content: string): void => {
      const logId = log.run().lastInsertRowid;
      for (const [day = '', time = '', f = ''] of (parse(content) as string[][]).slice(1)) {
        const [month = 0, date = 0, year = 0] = day.split('/').map(Number);
        const [hour = 0, minute = 0, second = 0] = time.split(':').map(Number);
        const moment = new Date(Date.UTC(year, month - 1, date, hour + 7, minute, second)).toISOString();
        insert.run(logId, moment, f, Number(f));
      }
    }),
    close: (): void => void db.close(),
  };
} // prettier-ignore
