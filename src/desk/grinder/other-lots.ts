/** Replaces a planned lot of bought fat that ran out with other lots of the same fat, and names what is missing. */
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import { lotNamed } from './blend-sources.ts';
import type { FatEstimates } from '../learning/fat-estimates.ts';
import { keepsOf } from './fat-keeps.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage, PlanPart } from '../contract/contract.ts';

/**
 * Parts still to weigh, each limited to its lot. What a lot lacks comes from other lots of the same fat, oldest
 * first, none past its use-by. `substitutes` is fat added from lots outside the plan; it counts for planned lots of the
 * same fat. `short` is what no lot has. An animal's own fat is never replaced.
 */
export function fromOtherLots(
  session: Session,
  toWeigh: readonly PlanPart[],
  believed: FatEstimates,
  substitutes: readonly { lotId: number; grams: number }[],
): { toWeigh: PlanPart[]; short: BatchPage['shortFat'] } {
  const substituted = new Map<string, number>();
  for (const { lotId, grams } of substitutes) {
    const source = session.book.fat.get(lotId)?.source ?? '';
    substituted.set(source, (substituted.get(source) ?? 0) + grams);
  }
  const spent = new Map<number, number>();
  const leftOf = (lot: FatLotRecord): number => Math.max(0, lot.left_grams - (spent.get(lot.id) ?? 0));
  const parts: PlanPart[] = [];
  const lacks: NonNullable<BatchPage['shortFat']>[] = [];
  for (const part of toWeigh) {
    const planned = part.fatLotId === null ? undefined : session.book.fat.get(part.fatLotId);
    if (!planned) {
      parts.push(part);
      continue;
    }
    const others = planned.animal_id === null ? sameFat(session, planned) : [];
    const already = Math.min(part.grams, substituted.get(planned.source) ?? 0);
    substituted.set(planned.source, (substituted.get(planned.source) ?? 0) - already);
    let missing = part.grams - already;
    for (const lot of [planned, ...others]) {
      // A planned lot that holds nearly all of it is used up completely.
      const grams =
        lot === planned && missing <= leftOf(lot) + ROUNDING_TOLERANCE_GRAMS
          ? missing
          : Math.min(missing, leftOf(lot));
      if (missing <= ROUNDING_TOLERANCE_GRAMS || grams <= ROUNDING_TOLERANCE_GRAMS) continue;
      spent.set(lot.id, (spent.get(lot.id) ?? 0) + grams);
      missing -= grams;
      parts.push(lot === planned ? { ...part, grams } : partOf(lot, grams, part, believed));
    }
    if (missing > ROUNDING_TOLERANCE_GRAMS)
      lacks.push({ source: planned.source, name: planned.name, grams: missing });
  }
  const [first] = lacks;
  const grams = lacks.reduce((total, lack) => total + lack.grams, 0);
  return { toWeigh: parts, short: first ? { ...first, grams } : null };
}

/** The lot to top up from: the planned one, or another of the same fat if that is empty. */
export function lotToTopUp(session: Session, planned: FatLotRecord): FatLotRecord {
  if (planned.left_grams > ROUNDING_TOLERANCE_GRAMS || planned.animal_id !== null) return planned;
  return sameFat(session, planned)[0] ?? planned;
}

function sameFat(session: Session, planned: FatLotRecord): FatLotRecord[] {
  return session.book.fat
    .all()
    .filter(
      (lot) =>
        lot.id !== planned.id &&
        lot.animal_id === null &&
        lot.source === planned.source &&
        lot.left_grams > ROUNDING_TOLERANCE_GRAMS &&
        keepsOf(session, lot) !== 'past',
    );
}

function partOf(lot: FatLotRecord, grams: number, instead: PlanPart, believed: FatEstimates): PlanPart {
  return {
    ...instead,
    key: `fat ${lot.id}`,
    ...lotNamed(lot),
    fatLotId: lot.id,
    fat: believed.lot(lot).mean,
    grams,
    share: (instead.share * grams) / instead.grams,
  };
}
