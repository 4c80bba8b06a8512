import type { Db } from '../../file/db.ts';
import { firstFree, MAX_IN_SEASON, seasonMark } from '../season-mark.ts';

export interface MadeRow {
  id: number;
  season: number;
  name: string;
  recipe_id: number;
  batch_id: number;
  at: string;
  by: string;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

export interface StartRow {
  id: number;
  made_id: number;
  recipe_version_id: number;
  portion_typed: string;
  grams: number;
  body: string;
  at: string;
  by: string;
}

export interface AnalysisRow {
  id: number;
  what: 'moisture' | 'protein' | 'fat' | 'salt' | 'water activity' | 'ph';
  typed: string;
  value: number;
  method: string;
  at: string;
  by: string;
  void_reason: string | null;
}

const MADE = `SELECT m.id, m.season, m.name, m.recipe_id, m.batch_id, m.at, m.by, v.reason AS void_reason, v.at AS void_at, v.by AS void_by
  FROM made_batch m LEFT JOIN made_batch_void v ON v.made_id = m.id`;

/** Made batches, how they were started, and figures measured of them. */
export function madeRecords(db: Db) {
  const get = db.prepare<[number], MadeRow>(`${MADE} WHERE m.id = ?`);
  const ofBatch = db.prepare<[number], MadeRow>(
    `${MADE} WHERE m.batch_id = ? AND v.made_id IS NULL ORDER BY m.id`,
  );
  const newest = db.prepare<[number], MadeRow>(`${MADE} WHERE v.made_id IS NULL ORDER BY m.id DESC LIMIT ?`);
  const ofSeason = db.prepare<[number], MadeRow>(
    `${MADE} WHERE m.season = ? AND v.made_id IS NULL ORDER BY m.id`,
  );
  const nextNumber = db
    .prepare<[number], number>(
      `SELECT coalesce(max(number), 0) + 1 FROM made_batch WHERE season = ? AND number < ${MAX_IN_SEASON}`,
    )
    .pluck();
  const named = db.prepare<[string], number>('SELECT id FROM made_batch WHERE name = ?').pluck();
  const insert = db.prepare(
    `INSERT INTO made_batch (season, number, name, recipe_id, batch_id, at, by)
     VALUES (@season, @number, @name, @recipeId, @batchId, @at, @by)`,
  );
  const addVoid = db.prepare('INSERT INTO made_batch_void (made_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const start = db.prepare<[number], StartRow>(
    'SELECT * FROM made_start WHERE made_id = ? ORDER BY id DESC LIMIT 1',
  );
  const starts = db.prepare<[number], StartRow>('SELECT * FROM made_start WHERE made_id = ? ORDER BY id');
  const addStart = db.prepare(
    `INSERT INTO made_start (made_id, recipe_version_id, portion_typed, grams, body, at, by)
     VALUES (@madeId, @versionId, @portionTyped, @grams, @body, @at, @by)`,
  );
  const analyses = db.prepare<[number], AnalysisRow>(
    `SELECT a.id, a.what, a.typed, a.value, a.method, a.at, a.by, v.reason AS void_reason
     FROM made_analysis a LEFT JOIN made_analysis_void v ON v.analysis_id = a.id WHERE a.made_id = ? ORDER BY a.id`,
  );
  const addAnalysis = db.prepare(
    `INSERT INTO made_analysis (made_id, what, typed, value, method, at, by)
     VALUES (@madeId, @what, @typed, @value, @method, @at, @by)`,
  );
  const analysisOf = db
    .prepare<[number], number>('SELECT made_id FROM made_analysis_now WHERE id = ?')
    .pluck();
  const voidAnalysis = db.prepare(
    'INSERT INTO made_analysis_void (analysis_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  return {
    get: (id: number) => get.get(id),
    /** Those of a grind that are not voided. */
    ofBatch: (batchId: number) => ofBatch.all(batchId),
    /** Newest first, voided ones left out. */
    newest: (limit: number) => newest.all(limit),
    ofSeason: (season: number) => ofSeason.all(season),
    add(made: { season: number; recipeId: number; batchId: number; at: string; by: string }): {
      id: number;
      name: string;
    } {
      const nameOf = (n: number): string => `M${seasonMark(made.season)}-${String(n).padStart(3, '0')}`;
      const number = firstFree(nextNumber.get(made.season) ?? 1, (n) => named.get(nameOf(n)) !== undefined);
      const name = nameOf(number);
      return { id: Number(insert.run({ ...made, number, name }).lastInsertRowid), name };
    },
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    /** The start that counts. */
    start: (id: number) => start.get(id),
    /** Every start in order: amounts may be changed until the batch is stuffed. */
    starts: (id: number) => starts.all(id),
    addStart: (row: {
      madeId: number;
      versionId: number;
      portionTyped: string;
      grams: number;
      body: string;
      at: string;
      by: string;
    }): number => Number(addStart.run(row).lastInsertRowid),
    analyses: (id: number) => analyses.all(id),
    addAnalysis: (row: {
      madeId: number;
      what: AnalysisRow['what'];
      typed: string;
      value: number;
      method: string;
      at: string;
      by: string;
    }): number => Number(addAnalysis.run(row).lastInsertRowid),
    /** The made batch of a figure that counts. */
    madeOfAnalysis: (analysisId: number) => analysisOf.get(analysisId),
    voidAnalysis: (id: number, reason: string, at: string, by: string): void =>
      void voidAnalysis.run(id, reason, at, by),
  };
}
