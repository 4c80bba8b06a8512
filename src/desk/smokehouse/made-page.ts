/** Made batches as a whole: the list, and the page of one. */
import * as v from 'valibot';
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import type { LossBatch } from '../../core/loss/loss.ts';
import { addedWater, moistureProteinRatio, proteinFatFree } from '../../core/curing/composition.ts';
import { GROUND_HEAT } from '../../core/cold/ground-heat.ts';
import type { MadePage, MadeView } from '../contract/contract.ts';
import { id } from '../input/input.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { Session } from '../session/session.ts';
import { madeOf, recipeOf, startOf, stateOf, sumsOf } from './made-batch.ts';
import { madeLine } from './made-line.ts';
import { madeOwners } from './made-owners.ts';
import { reckoned } from './made-start.ts';
import { hostsIn, leftOf } from './meat.ts';
import { decisionOf } from './proof.ts';
import { recipeRowOf } from '../recipes/recipes.ts';
import { ofWeighed, unweighedCures, weighedGrams, withWeighed } from './weighed.ts';

const RECENT = 40;
/** More than a shop has at work at one time. */
const NEWEST = 300;

/** Batches at work, the newest finished ones, and open grinds that have meat for more. */
export const list = readAfterLearning(v.object({}), (session): MadeView => {
  const newest = session.book.made.newest(NEWEST);
  const isOpen = ({ batch_id: of }: MadeRow): boolean => session.book.batches.get(of)?.state === 'open';
  return {
    open: newest.filter(isOpen).map((made) => madeLine(session, made)),
    recent: newest
      .filter((made) => !isOpen(made))
      .slice(0, RECENT)
      .map((made) => madeLine(session, made)),
    grinds: session.book.batches.open().flatMap((grind) => {
      const leftGrams = leftOf(session, grind.id);
      const tickets = session.book.batches.animals(grind.id).map(({ ticket }) => ticket);
      return leftGrams > 0
        ? [{ batchId: grind.id, batch: grind.name, product: grind.product, tickets, leftGrams }]
        : [];
    }),
  };
});

/** @throws ProblemError `made.unknown`, `made.voided` */
export const get = readAfterLearning(v.object({ id }), (session, input): MadePage => {
  const made = madeOf(session, input.id);
  const started = startOf(session, made.id);
  const { body, versionId } = recipeOf(session, made);
  const rows = session.book.madeWeights.weighed(made.id);
  const sheet = started?.sheet ?? unstarted(session, made);
  const weighed = started && ofWeighed(started, weighedGrams(rows));
  const cured = started !== null && unweighedCures(started, rows).length === 0;
  const names = new Map(started?.cards.map((card) => [card.id, card.name]));
  return {
    ...madeLine(session, made),
    body,
    versionId,
    newerVersion: recipeRowOf(session, made.recipe_id).version !== versionId,
    sheet: sheet && withWeighed(session, sheet, rows),
    startedAt: started?.row.at ?? null,
    startedBy: started?.row.by ?? null,
    hosts: [...new Set([...(started?.hosts ?? []), ...hostsIn(session, made.batch_id)])],
    cookTo: {
      f: GROUND_HEAT.f,
      c: GROUND_HEAT.c,
      source: { grade: 'official', source: GROUND_HEAT.source },
    },
    weighed: rows.map((row) => ({
      id: row.id,
      ingredientId: row.ingredient_id,
      name: names.get(row.ingredient_id) ?? '',
      typed: row.typed,
      grams: row.grams,
      lot: row.lot,
      source: row.source,
      at: row.at,
      by: row.by,
      voided: row.void_reason === null ? null : { reason: row.void_reason, by: row.void_by ?? '' },
    })),
    weighedPpm: cured ? (weighed?.ppm ?? null) : null,
    weighedFindings: weighed?.findings ?? [],
    stages: session.book.madeWeights.stages(made.id).map((row) => ({
      id: row.id,
      stage: row.stage,
      pieces: row.pieces,
      typed: row.typed,
      grams: row.grams,
      at: row.at,
      by: row.by,
      voided: row.void_reason === null ? null : { reason: row.void_reason, by: row.void_by ?? '' },
    })),
    packs: session.book.madeWeights
      .packages(made.id)
      .map(({ id: of, product, count, typed, grams, place, at, by }) => ({
        id: of,
        product,
        count,
        typed,
        grams,
        place,
        at,
        by,
      })),
    analyses: session.book.made
      .analyses(made.id)
      .map(({ void_reason: voided, ...analysis }) => ({ ...analysis, voided })),
    composition: compositionOf(session, made.id),
    unusual: unusualOf(session, made.id),
    owners: madeOwners(session, made),
    decisions: session.book.loadLogs.decidedOfMade(made.id).map(decisionOf),
  };
});

/** As it would be started now, or null without meat. */
function unstarted(session: Session, made: MadeRow): MadePage['sheet'] {
  if (leftOf(session, made.batch_id, made.id) <= 0) return null;
  return reckoned(session, made, { portionTyped: '', pickUp: null, smallStepGrams: null }).sheet;
}

function compositionOf(session: Session, madeId: number): MadePage['composition'] {
  const rows = session.book.made.analyses(madeId).filter(({ void_reason: voided }) => voided === null);
  const of = (what: string): number | undefined => rows.findLast((row) => row.what === what)?.value;
  const [moisture, protein, fat] = [of('moisture'), of('protein'), of('fat')];
  const possible = (...parts: readonly number[]): boolean => parts.reduce((sum, one) => sum + one, 0) <= 1;
  return {
    proteinFatFree:
      protein !== undefined && fat !== undefined && fat < 1 && possible(protein, fat)
        ? proteinFatFree({ protein, fat })
        : null,
    moistureProtein:
      moisture !== undefined && protein !== undefined && protein > 0 && possible(moisture, protein)
        ? moistureProteinRatio({ moisture, protein })
        : null,
    addedWater:
      moisture !== undefined && protein !== undefined && possible(moisture, protein)
        ? addedWater({ moisture, protein })
        : null,
  };
}

/** How unusual the loss of a batch is beside the others of its recipe; null while too few are known or it is still at work. */
export function unusualOf(session: Session, madeId: number): number | null {
  const { model, batches, lots } = session.losses;
  const at = batches.findIndex((one) => one.id === madeId);
  const known = lots[at];
  if (known) return model.tailOf(known, at);
  const sums = sumsOf(session, madeId);
  if (stateOf(sums) !== 'packed' || sums.stuffed === null) return null;
  const made = madeOf(session, madeId);
  const { body } = recipeOf(session, made);
  const lot: LossBatch = {
    product: String(made.recipe_id),
    kind: body.lossKind,
    inGrams: sums.stuffed,
    outGrams: Math.min(sums.stuffed, sums.packed ?? 0),
  };
  return model.tailOf(lot);
}
