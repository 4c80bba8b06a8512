/**
 * The smokehouse, call by call. Masses are grams, shares and strengths fractions, temperatures °F unless named, moments UTC ISO text,
 * days `YYYY-MM-DD`. Weights are typed, `18.6` in the shop's unit, `45 g` with its own. Every write also takes `by`.
 *
 * recipes   list {} · get { id, versionId? } · check { body } ask; save { id?, name, product, body, reason } ·
 *           archive/restore { id } · addReady { code } · saveIngredient { id?, ingredient } · archiveIngredient/restoreIngredient { id }
 * made      list {} · get { id } · plan { id, portionTyped, pickUp?, smallStepGrams? } · forecast { recipeId, finishedGrams?, trimGrams? }
 *           · losses { recipeId? } · label { id } ask; open { recipeId, batchId? | animals? } (animals: a grind is begun for them) ·
 *           start as plan (again until it is stuffed: the newest counts) · weigh { id, ingredientId, typed, lot, source, confirmed } ·
 *           voidWeighed { weighedId, reason } · stage { id, stage, typed, pieces?, source } · voidStage { stageId, reason } ·
 *           pack { id, count, typed, tareTyped, source, place, reason, confirmed } · analyse { id, what, typed, method } ·
 *           voidAnalysis { analysisId, reason } · void { id, reason }
 *           Meat is weighed in with `grinder.weighIn { batchId, … }`; a packed weight is corrected or voided as any package is.
 * loads     list {} · get { id } · readings { logId, from } · previewLog { id, upload, degrees?, dates? } ask; open { oven, madeIds } ·
 *           add { id, madeId } · remove { id, loadBatchId, reason } · record { id, record } · close { id } · reopen { id, reason } ·
 *           importLog { id, upload, probe, phase, degrees?, dates? } · reading { id, probe, phase, degrees, typed, earlier? { on, time }, source } ·
 *           voidLog { logId, reason } · exclude { readingId, reason } · include { readingId, reason } · judge { id } ·
 *           decide { loadId? | madeId?, decided, decidedBy, note } · voidDecision { id, reason }
 */
export type * from './smokehouse/recipe.ts';
export type * from './smokehouse/made.ts';
export type * from './smokehouse/load.ts';
export type * from './smokehouse/proof.ts';
