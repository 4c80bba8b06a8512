/** A season's grinds by species: its fat in and out, and how its batches met their targets. */
import type { BatchFat, BatchSource } from '../../book/sums/season-fat.ts';
import type { Session } from '../session/session.ts';
import type { FatMiss, SpeciesFat } from '../contract/contract.ts';

/** A batch, its sources, and the resulting fat. */
export interface FilledBatch extends BatchFat {
  rows: readonly BatchSource[];
  weighedIn: number | null;
}

/** One species' part of one batch. */
interface Part {
  batch: FilledBatch;
  /** Its own meat and fat in the batch, in grams, and its share of all of it. */
  grams: number;
  share: number;
}

/** By species, most own meat first; only `only` if given. Bought fat is divided by the meat put in. */
export function speciesFat(
  session: Session,
  batches: readonly FilledBatch[],
  only: string | undefined,
): SpeciesFat[] {
  const parts = new Map<string, Part[]>();
  for (const batch of batches) {
    const own = batch.rows.filter(({ animal_id: id }) => id !== null);
    const all = gramsOf(own);
    for (const [code, of] of Map.groupBy(own, ({ species }) => species ?? '')) {
      const grams = gramsOf(of);
      const part = { batch, grams, share: grams / all };
      const known = parts.get(code);
      if (known) known.push(part);
      else parts.set(code, [part]);
    }
  }
  return [...parts]
    .filter(([code]) => only === undefined || code === only)
    .map(([code, of]) => ({ row: oneSpecies(session, code, of), grams: sum(of, ({ grams }) => grams) }))
    .sort((a, b) => b.grams - a.grams || a.row.code.localeCompare(b.row.code))
    .map(({ row }) => row);
}

export function gramsOf(rows: readonly Pick<BatchSource, 'grams'>[]): number {
  return sum(rows, ({ grams }) => grams);
}

function oneSpecies(session: Session, code: string, parts: readonly Part[]): SpeciesFat {
  const own = parts.flatMap(({ batch }) => batch.rows.filter(({ species }) => species === code));
  const bought = ({ batch, share }: Part): number =>
    share * gramsOf(batch.rows.filter(({ animal_id: id }) => id === null));
  const off = (which: 'weighedIn' | 'tested') => (batch: FilledBatch) =>
    batch[which] === null || batch.target_fat === null ? null : batch[which] - batch.target_fat;
  return {
    code,
    name: session.species.of(code).name,
    animals: new Set(own.map(({ animal_id: id }) => id)).size,
    batches: parts.length,
    boughtGrams: sum(parts, bought),
    ownGrams: gramsOf(own.filter(({ fat_lot_id: lot }) => lot !== null)),
    target: meanOf(parts, (batch) => batch.target_fat)?.mean ?? null,
    weighedIn: meanOf(parts, (batch) => batch.weighedIn)?.mean ?? null,
    tested: meanOf(parts, (batch) => batch.tested)?.mean ?? null,
    misses: { weighedIn: meanOf(parts, off('weighedIn')), tested: meanOf(parts, off('tested')) },
  };
}

/** Mean over the batches that have a value, weighted by the species' grams; null if none has. */
function meanOf(parts: readonly Part[], value: (batch: FilledBatch) => number | null): FatMiss | null {
  const known = parts.flatMap(({ batch, grams }) => {
    const of = value(batch);
    return of === null ? [] : [{ of, grams }];
  });
  if (known.length === 0) return null;
  const all = sum(known, ({ grams }) => grams);
  return { batches: known.length, mean: sum(known, ({ of, grams }) => of * grams) / all };
}

function sum<T>(of: readonly T[], value: (one: T) => number): number {
  return of.reduce((total, one) => total + value(one), 0);
}
