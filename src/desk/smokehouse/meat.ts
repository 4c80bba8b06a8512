/** The meat of a made batch: what was weighed into its grind, by kind, and whose it is. */
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { normalQuantile } from '../../core/stats/distributions.ts';
import { batchOf } from '../animal/closed.ts';
import { refuseAffectedBatch } from '../animal/hold-rules.ts';
import { ProblemError } from '../contract/problem.ts';
import type { FatShare, MeatKind, RecipeBody } from '../contract/contract.ts';
import { fatOfSource, mixtureOf } from '../learning/fat-estimates.ts';
import type { Session } from '../session/session.ts';
import { FATS } from '../supplied/resources.ts';
import type { WeighedMeat } from '../recipes/reckon.ts';

/** Meat of one kind and name in a made batch. */
export interface MeatIn {
  readonly kind: MeatKind;
  readonly name: string;
  readonly grams: number;
  readonly fat: number;
}

const HOST_CAUTION = 'trichinella-cooking';
/** Two scales differ by less, grams. */
const SAME_GRAMS = 1;
const NINE_IN_TEN = normalQuantile(0.95);

/** All that was weighed of a grind, without voided weights. A batch sheet asks for them once. */
export const standingIn = (session: Session, batchId: number): WeighingRecord[] =>
  session.book.weighings.ofBatch(batchId).filter(({ void_at }) => void_at === null);

const intoGrinder = (rows: readonly WeighingRecord[]): WeighingRecord[] =>
  rows.filter(({ stage }) => stage === 'grinder');

/** Everything weighed into a grind, by kind and name, the heaviest first. */
export function meatOf(
  session: Session,
  batchId: number,
  standing: readonly WeighingRecord[] = standingIn(session, batchId),
): MeatIn[] {
  const estimates = session.fats.before(batchId);
  const rows = intoGrinder(standing).map((row) => ({
    ...kindOf(session, row),
    grams: row.grams,
    fat: fatOfSource(estimates, row).mean,
  }));
  return [...Map.groupBy(rows, ({ kind, name }) => `${kind} ${name}`).values()]
    .map((of) => {
      const grams = of.reduce((sum, one) => sum + one.grams, 0);
      const fat = of.reduce((sum, one) => sum + one.grams * one.fat, 0) / grams;
      return { kind: of[0]?.kind ?? 'other', name: of[0]?.name ?? '', grams, fat };
    })
    .sort((a, b) => b.grams - a.grams);
}

function kindOf(session: Session, row: WeighingRecord): Pick<MeatIn, 'kind' | 'name'> {
  if (row.fat_lot_id === null)
    return { kind: 'game', name: row.species === null ? '' : session.species.of(row.species).name };
  const lot = session.book.fat.get(row.fat_lot_id);
  if (row.part === 'fat saved') return { kind: 'own-fat', name: lot?.name ?? '' };
  const animal = FATS.find(({ code }) => code === lot?.source)?.animal;
  return { kind: animal === 'pork' || animal === 'beef' ? animal : 'other', name: lot?.name ?? '' };
}

/** Grams of a grind that no other product was started with and that was not packed as it is. */
export function leftOf(
  session: Session,
  batchId: number,
  except?: number,
  rows: readonly WeighingRecord[] = standingIn(session, batchId),
): number {
  const gramsOf = (wanted: string): number =>
    rows.reduce((sum, { stage, grams }) => sum + (stage === wanted ? grams : 0), 0);
  const [total, packed] = [gramsOf('grinder'), gramsOf('packed')];
  const sums = session.book.madeWeights.sumsOfBatch(batchId);
  const others = sums.reduce((sum, { id, block }) => sum + (id === except ? 0 : (block ?? 0)), 0);
  const made = sums.reduce((sum, one) => sum + (one.packed ?? 0), 0);
  return Math.max(0, total - others - Math.max(0, packed - made));
}

/** So much of a grind: each kind in the same proportion. */
export function portionOf(meat: readonly MeatIn[], grams: number): MeatIn[] {
  const total = meat.reduce((sum, one) => sum + one.grams, 0);
  return total === 0 ? [] : meat.map((one) => ({ ...one, grams: (one.grams * grams) / total }));
}

/**
 * Meat on the parts of a recipe: each kind divided among the recipe's parts of that kind by their shares; a kind that the recipe does not
 * have is a part of its own.
 */
export function onParts({ meat: parts }: Pick<RecipeBody, 'meat'>, meat: readonly MeatIn[]): WeighedMeat[] {
  const kinds = new Map([...Map.groupBy(meat, ({ kind }) => kind)].map(([kind, of]) => [kind, together(of)]));
  const own = parts.map((part, i): WeighedMeat => {
    const of = kinds.get(part.kind);
    const same = parts.filter(({ kind }) => kind === part.kind);
    const shares = same.reduce((sum, { share }) => sum + share, 0);
    const share = shares > 0 ? part.share / shares : 1 / same.length;
    return { id: String(i), ...part, grams: (of?.grams ?? 0) * share, fat: of ? of.fat : part.fat };
  });
  const others = [...kinds]
    .filter(([kind]) => !parts.some((part) => part.kind === kind))
    .map(([kind, of]): WeighedMeat => ({ id: kind, kind, share: 0, ...of }));
  return [...own, ...others];
}

function together(of: readonly MeatIn[]): { name: string; grams: number; fat: number } {
  const grams = of.reduce((sum, one) => sum + one.grams, 0);
  return {
    name: [...new Set(of.map(({ name }) => name))].join(', '),
    grams,
    fat: grams === 0 ? 0 : of.reduce((sum, one) => sum + one.grams * one.fat, 0) / grams,
  };
}

/** Fat of the block 9 times in 10, and of all that goes into the casing. */
export function fatShares(
  session: Session,
  { batchId, standing }: { batchId: number; standing: readonly WeighingRecord[] },
  blockGrams: number,
  rawGrams: number,
): { block: FatShare; raw: FatShare } | null {
  const mix = mixtureOf(session.fats.before(batchId), intoGrinder(standing));
  if (!mix) return null;
  const share = (grams: number): FatShare => {
    const at = (fat: number): number => (Math.min(1, Math.max(0, fat)) * blockGrams) / grams;
    return {
      fat: at(mix.mean),
      low: at(mix.mean - NINE_IN_TEN * mix.sd),
      high: at(mix.mean + NINE_IN_TEN * mix.sd),
    };
  };
  return { block: share(blockGrams), raw: share(rawGrams) };
}

/** Names of species in a grind that may carry Trichinella. */
export function hostsIn(
  session: Session,
  batchId: number,
  standing: readonly WeighingRecord[] = standingIn(session, batchId),
): string[] {
  return codesIn(standing)
    .map((code) => session.species.of(code))
    .filter(({ cautions }) => cautions.includes(HOST_CAUTION))
    .map(({ name }) => name);
}

/** Names of all species in a grind. */
export function speciesIn(session: Session, standing: readonly WeighingRecord[]): string[] {
  return codesIn(standing).map((code) => session.species.of(code).name);
}

const codesIn = (standing: readonly WeighingRecord[]): string[] => [
  ...new Set(intoGrinder(standing).flatMap(({ species }) => species ?? [])),
];

/**
 * Held meat goes into no product of the smokehouse, alone or pooled, whatever the shop's setting says of cutting it.
 * @throws ProblemError `made.held`, `batch.affected` (refused)
 */
export function refuseHeldMeat(session: Session, batchId: number): void {
  refuseAffectedBatch(session, batchOf(session, batchId));
  for (const { id, ticket } of session.book.batches.animals(batchId))
    if (session.book.animals.hold(id)) throw new ProblemError('refused', 'made.held', { with: { ticket } });
}

/** Whether the grind changed since a product was started with what it held then. */
export function meatChanged(
  session: Session,
  made: Pick<MadeRow, 'id' | 'batch_id'>,
  { grams, portion_typed: typed }: { grams: number; portion_typed: string },
): boolean {
  const left = leftOf(session, made.batch_id, made.id);
  return typed === '' ? Math.abs(left - grams) > SAME_GRAMS : grams > left + SAME_GRAMS;
}
