/** Tables of the smokehouse against the model. */
import { addedOf, packedOf, stageOf } from './smokehouse.ts';
import { flag, type Table } from './table.ts';

const voided = (table: string, key: string, alias = 'r'): string =>
  `EXISTS (SELECT 1 FROM ${table}_void v WHERE v.${key} = ${alias}.id) AS voided`;

export const SMOKEHOUSE_TABLES: readonly Table[] = [
  {
    name: 'recipe',
    sql: `SELECT r.id, r.active, count(*) AS versions, (SELECT v.name FROM recipe_version v WHERE v.recipe_id = r.id ORDER BY v.id DESC LIMIT 1) AS name
      FROM recipe r JOIN recipe_version n ON n.recipe_id = r.id GROUP BY r.id ORDER BY r.id`,
    model: ({ book }) => book.smokehouse.recipes.map((one) => ({ id: one.id, active: flag(!one.away), versions: one.versions, name: one.name })),
  },
  {
    name: 'ingredient',
    sql: `SELECT i.id, i.active, v.name, v.nitrite FROM ingredient i
      JOIN ingredient_version v ON v.id = (SELECT max(x.id) FROM ingredient_version x WHERE x.ingredient_id = i.id) ORDER BY i.id`,
    model: ({ book }) => book.smokehouse.ingredients.map((one) => ({ id: one.id, active: flag(!one.away), name: one.name, nitrite: one.strength })),
  },
  {
    name: 'made_batch',
    sql: `SELECT r.id, r.name, r.season, r.recipe_id, r.batch_id, ${voided('made_batch', 'made_id')},
        (SELECT s.grams FROM made_start s WHERE s.made_id = r.id ORDER BY s.id DESC LIMIT 1) AS block,
        (SELECT total(w.grams) FROM made_weighed_now w WHERE w.made_id = r.id) AS added,
        (SELECT sum(s.grams) FROM made_stage_now s WHERE s.made_id = r.id AND s.stage = 'stuffed') AS stuffed,
        (SELECT sum(s.grams) FROM made_stage_now s WHERE s.made_id = r.id AND s.stage = 'cooked') AS cooked,
        (SELECT sum(w.grams) FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = r.id) AS packed,
        (SELECT count(*) FROM made_analysis_now a WHERE a.made_id = r.id) AS analyses
      FROM made_batch r ORDER BY r.id`,
    model: (shop) => shop.book.smokehouse.made.map((one) => ({
      id: one.id, name: one.name, season: one.season, recipe_id: one.recipe, batch_id: one.batch, voided: flag(one.voided),
      block: one.start?.grams ?? null, added: addedOf(one), stuffed: stageOf(one, 'stuffed'), cooked: stageOf(one, 'cooked'),
      packed: packedOf(shop, one), analyses: one.analyses.filter((row) => !row.voided).length,
    })),
  },
  {
    name: 'load',
    sql: `SELECT r.id, r.name, r.season, (SELECT n.state FROM load_record n WHERE n.load_id = r.id ORDER BY n.id DESC LIMIT 1) AS state,
        (SELECT json_group_array(b.made_id) FROM load_batch_now b WHERE b.load_id = r.id) AS made, (SELECT count(*) FROM load_verdict v WHERE v.load_id = r.id) AS verdicts
      FROM load r ORDER BY r.id`,
    model: ({ book }) => book.smokehouse.loads.map((one) => ({
      id: one.id, name: one.name, season: one.season, state: one.closed ? 'closed' : 'open',
      made: JSON.stringify(one.batches.filter((row) => !row.voided).map(({ made }) => made)), verdicts: one.verdicts,
    })),
  },
  {
    name: 'load_log',
    sql: `SELECT r.id, r.load_id, ${voided('load_log', 'log_id')}, (SELECT count(*) FROM load_reading n WHERE n.log_id = r.id) AS readings,
        (SELECT count(*) FROM load_reading n JOIN load_exclusion_now x ON x.reading_id = n.id WHERE n.log_id = r.id) AS excluded
      FROM load_log r ORDER BY r.id`,
    model: ({ book }) => book.smokehouse.loads
      .flatMap((load) => load.logs.map((log) => {
        const own = load.readings.filter((one) => one.log === log.id);
        return { id: log.id, load_id: load.id, voided: flag(log.voided), readings: own.length, excluded: own.filter(({ excluded }) => excluded).length };
      }))
      .sort((a, b) => a.id - b.id),
  },
  {
    name: 'deviation',
    sql: `SELECT r.id, r.load_id, r.made_id, r.decided, ${voided('deviation', 'deviation_id')} FROM deviation r ORDER BY r.id`,
    model: ({ book }) => book.smokehouse.decisions.map((one) => ({
      id: one.id, load_id: one.load, made_id: one.made, decided: one.decided, voided: flag(one.voided),
    })),
  },
]; // prettier-ignore
