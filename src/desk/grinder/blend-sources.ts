/** Ingredients of a grind: animals' trim and lots of fat, as blend sources and as lines of the grinder page. */
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import type { TrimRow } from '../../book/sums/sums.ts';
import type { BlendSource } from '../../core/blend/types.ts';
import { GRAMS_PER, toGrams } from '../../core/values/units.ts';
import { fatOf, trimOf, type WeighedSource } from '../learning/fat-estimates.ts';
import { keepsOf } from './fat-keeps.ts';
import { ROUNDING_TOLERANCE_GRAMS, lotOf } from '../animal/fat-moves.ts';
import { ProblemError } from '../contract/problem.ts';
import { FATS } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { FatChoice, LeftOutLot, LotNamed, PlanPart } from '../contract/contract.ts';
import { openAnimalOf } from '../animal/closed.ts';

/** A blend source with its label. */
export interface BenchSource {
  source: BlendSource;
  /** Origin of the fat, to find what sources share. */
  of: WeighedSource;
  line: Omit<PlanPart, 'grams' | 'share'>;
}

/** Trim that was not ground yet. */
export function trimWaiting(session: Session): TrimRow[] {
  return session.book.sums.trimWaiting(trimCrumb(session));
}

/** Trim below half a scale step is rounding and does not count as left. */
export function trimCrumb({ settings: { step, unit } }: Session): number {
  return toGrams(step, unit) / 2 + ROUNDING_TOLERANCE_GRAMS;
}

/**
 * The trim of these animals: all of it, or the given amount. @throws ProblemError `animal.closed`, `trim.not-enough`,
 * `trim.none`
 */
export function trimSources(
  session: Session,
  animals: readonly { id: number; grams?: number | undefined }[],
): BenchSource[] {
  return animals.map(({ id, grams }) => {
    const animal = openAnimalOf(session, id);
    const sums = session.book.weighings.sums(id);
    const left = (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
    if (left <= trimCrumb(session))
      throw new ProblemError('refused', 'trim.none', { field: 'animals', with: { ticket: animal.ticket } });
    if (grams !== undefined && grams > left + ROUNDING_TOLERANCE_GRAMS)
      throw new ProblemError('refused', 'trim.not-enough', {
        field: 'animals',
        with: { grams, leftGrams: left, ticket: animal.ticket },
      });
    const { mean, sd } = session.fats.now.trim(animal);
    const key = `trim ${id}`;
    return {
      source: { id: key, fat: mean, fatSd: sd, availableGrams: grams ?? left, costPerKg: 0, useAll: true },
      of: trimOf(animal),
      line: {
        key,
        kind: 'trim',
        ticket: animal.ticket,
        fatName: null,
        lotCode: null,
        animalId: id,
        fatLotId: null,
        fat: mean,
      },
    };
  });
}

/**
 * The lots of a choice of fat, oldest first; lots of one price are used in that order. Expired lots only if named.
 * @throws ProblemError `fat.unknown`, `fat.lot-unknown`
 */
export function fatSources(
  session: Session,
  choice: FatChoice,
  animalIds: readonly number[],
  lotIds?: readonly number[],
): BenchSource[] {
  if (choice === 'none') return [];
  const lots = lotIds
    ? lotIds.map((id) => lotOf(session, id)).sort(oldestFirst)
    : lotsOf(session, choice, animalIds).filter((lot) => keepsOf(session, lot) !== 'past');
  const stepGrams = toGrams(session.settings.step, session.settings.unit);
  return lots
    .filter((lot) => lot.left_grams > ROUNDING_TOLERANCE_GRAMS)
    .map((lot, age) => {
      const key = `fat ${lot.id}`;
      const { mean, sd } = session.fats.now.lot(lot);
      return {
        source: {
          id: key,
          fat: mean,
          fatSd: sd,
          availableGrams: lot.left_grams,
          costPerKg: costPerKg(lot),
          queuePosition: age,
          stepGrams,
        },
        of: fatOf(lot),
        line: {
          key,
          kind: 'fat',
          ...lotNamed(lot),
          animalId: lot.animal_id,
          fatLotId: lot.id,
          fat: mean,
        },
      };
    });
}

/**
 * Sources with their shared uncertainty: trim of one kind shares the error of its mean, fat of one test the error of
 * the test.
 */
export function sharing({ fats }: Pick<Session, 'fats'>, bench: readonly BenchSource[]): BlendSource[] {
  return bench.map(({ source, of }, i) => ({
    ...source,
    fatCovariance: Object.fromEntries(
      bench.slice(0, i).map((other) => [other.source.id, fats.now.covariance(of, other.of)]),
    ),
  }));
}

/** Lots of the chosen fat that are past their use-by and therefore not planned. */
export function leftOut(
  session: Session,
  request: { fat: FatChoice; animals: readonly { id: number }[]; lotIds?: readonly number[] | undefined },
): LeftOutLot[] {
  if (request.fat === 'none') return [];
  const ids = request.animals.map(({ id }) => id);
  return lotsOf(session, request.fat, ids)
    .filter((lot) => lot.left_grams > ROUNDING_TOLERANCE_GRAMS && keepsOf(session, lot) === 'past')
    .filter(({ id }) => !request.lotIds?.includes(id))
    .map((lot) => ({ lotId: lot.id, ...lotNamed(lot), grams: lot.left_grams, useBy: lot.use_by ?? '' }));
}

/** What a window calls a lot by, in its language. */
export function lotNamed({ name, code, ticket }: Pick<FatLotRecord, 'ticket' | 'name' | 'code'>): LotNamed {
  return { fatName: name, lotCode: code, ticket };
}

function oldestFirst(a: FatLotRecord, b: FatLotRecord): number {
  return a.received_on === b.received_on ? a.id - b.id : a.received_on < b.received_on ? -1 : 1;
}

export function costPerKg(lot: Pick<FatLotRecord, 'cost_minor' | 'cost_unit'>): number {
  if (lot.cost_minor === null || lot.cost_unit === null) return 0;
  return (lot.cost_minor * GRAMS_PER.kg) / GRAMS_PER[lot.cost_unit];
}

function lotsOf(session: Session, choice: FatChoice, animalIds: readonly number[]): FatLotRecord[] {
  const all = session.book.fat.withLeft(ROUNDING_TOLERANCE_GRAMS);
  if (choice === 'own')
    return all.filter(({ animal_id }) => animal_id !== null && animalIds.includes(animal_id));
  if (!FATS.some(({ code }) => code === choice))
    throw new ProblemError('missing', 'fat.unknown', { field: 'fat', with: { source: choice } });
  return all.filter(({ animal_id, source }) => animal_id === null && source === choice);
}
