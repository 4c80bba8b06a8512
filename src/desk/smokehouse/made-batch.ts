/** One made batch with its recipe and its start, as the calls of the smokehouse need it. */
import type { MadeRow, StartRow } from '../../book/records/smokehouse/made.ts';
import type { MadeSums } from '../../book/records/smokehouse/made-weights.ts';
import { ProblemError } from '../contract/problem.ts';
import type { IngredientCard, MadeSheet, MadeState, RecipeBody } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import type { MeatIn } from './meat.ts';
import { bodyOf, recipeRowOf } from '../recipes/recipes.ts';

/** What is frozen at the start: the packets as they were, the meat, and what was found on that day. */
export interface StoredStart {
  readonly sheet: MadeSheet;
  readonly body: RecipeBody;
  /** Ingredients of the recipe with their sub-ingredients. */
  readonly cards: readonly IngredientCard[];
  readonly meat: readonly MeatIn[];
  readonly species: readonly string[];
  readonly hosts: readonly string[];
}

export interface Started extends StoredStart {
  readonly row: StartRow;
}

/** A batch that is not voided. @throws ProblemError `made.unknown`, `made.voided` */
export function madeOf(session: Session, id: number): MadeRow {
  const found = session.book.made.get(id);
  if (!found) throw new ProblemError('missing', 'made.unknown', { field: 'id' });
  if (found.void_at !== null)
    throw new ProblemError('refused', 'made.voided', { with: { name: found.name } });
  return found;
}

export function startOf(session: Session, madeId: number): Started | null {
  const row = session.book.made.start(madeId);
  return row ? { row, ...(JSON.parse(row.body) as StoredStart) } : null;
}

/** @throws ProblemError `made.not-started` (refused) */
export function startedOf(session: Session, made: MadeRow): Started {
  const found = startOf(session, made.id);
  if (!found) throw new ProblemError('refused', 'made.not-started', { with: { name: made.name } });
  return found;
}

/** The recipe that counts for a batch: as it was started, else the newest version. */
export function recipeOf(
  session: Session,
  made: MadeRow,
): { name: string; product: string; versionId: number; body: RecipeBody } {
  const start = session.book.made.start(made.id);
  const row =
    (start && session.book.recipes.version(start.recipe_version_id)) ?? recipeRowOf(session, made.recipe_id);
  const body = start ? (JSON.parse(start.body) as StoredStart).body : bodyOf(row);
  return { name: row.name, product: row.product, versionId: row.version, body };
}

/** @throws ProblemError `made.unknown` */
export function sumsOf(session: Session, madeId: number): MadeSums {
  const found = session.book.madeWeights.sums(madeId);
  if (!found) throw new ProblemError('missing', 'made.unknown', { field: 'id' });
  return found;
}

export function stateOf({ block, stuffed, cooked, packed }: MadeSums): MadeState {
  if (packed !== null) return 'packed';
  if (cooked !== null) return 'cooked';
  if (stuffed !== null) return 'stuffed';
  return block === null ? 'open' : 'started';
}
