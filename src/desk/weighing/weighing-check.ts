/**
 * Checks the plausibility of a weight: impossible ones are refused, unlikely ones need confirmation, and a likely
 * mistype is offered.
 */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { WeightSums } from '../../book/records/weighings.ts';
import { likelyMistypes } from '../../core/values/mistype.ts';
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { Range } from '../../core/yield/yield.ts';
import { dressedToHanging } from '../../core/yield/convert.ts';
import type { ExplainedWeight } from '../../core/balance/explain.ts';
import { slipOf } from './animal-balance.ts';
import { culpritWith, misfitsWith } from './animal-weights.ts';
import { carcassLimits } from '../animal/carcass-limits.ts';
import { askHungAgain } from './hung-again.ts';
import { onlyTyped, saidOf } from './said.ts';
import { askAboutPrimal } from '../animal/primal-check.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { typedText } from '../input/typed-text.ts';
import { baseGrams } from '../learning/take-home.ts';
import { allParts, PART_OF } from '../animal/weighed-parts.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

interface Candidate {
  stage: string;
  part: string;
  primal?: string | null;
  reading: Reading;
  tare: Reading | null;
  grams: number;
  confirmed: boolean;
  /** The weight that this one replaces. */
  corrects?: number;
}

/** Tolerance of two scales, a wet hide and a rounded step: parts may outweigh their animal by this much. */
const MAX_OVER = 1.005;
/** Width of an 80 % range in standard deviations. */
const SD_OF_RANGE = 2.56;
const EIGHT_IN_TEN = SD_OF_RANGE / 2;

/** The base of the parts' shares, also if only a weight with hide is known. */
export function shareBase(
  animal: AnimalRow,
  sums: WeightSums | undefined,
  { ratios }: Pick<SpeciesProfile, 'ratios'>,
): number | null {
  if (!sums) return null;
  const base = baseGrams({ brought: animal.brought, hanging: sums.hanging, received: sums.received });
  if (base !== null || sums.received === null) return base;
  return sums.received * dressedToHanging(ratios, animal).mean;
}

export function sdOf(range: Range): number {
  return (range.high - range.low) / SD_OF_RANGE;
}

/**
 * @throws ProblemError `weight.more-than-animal` (refused); `weight.unlikely`, `weight.over`, `weight.hung-again` (conflict,
 * unless `confirmed`)
 */
export function checkAnimalWeight(session: Session, animal: AnimalRow, given: Candidate): void {
  const sums = session.book.weighings.sums(animal.id);
  if (given.stage === 'cut' || given.stage === 'primal' || given.stage === 'packed') {
    const whole = sums?.hanging === null || sums === undefined ? 'received' : 'hanging';
    refuseMoreThanAnimal(session, animal, sums, given, whole, () =>
      given.stage === 'cut' && sums ? culpritWith(session, animal, sums, given) : null,
    );
    if (given.confirmed) return;
    if (given.stage === 'packed') askAboutPackages(session, sums, given, whole);
    if (given.stage === 'cut') askAboutPart(session, animal, sums, given);
    if (given.stage === 'primal')
      askAboutPrimal(
        session,
        animal,
        shareBase(animal, sums, session.species.of(animal.species)),
        sums?.hanging ?? sums?.received ?? null,
        given,
      );
  } else {
    if (given.stage === 'hanging') {
      // First, because a carcass weighed again must not be summed.
      if (!given.confirmed && given.corrects === undefined) askHungAgain(session, animal);
      const grams = given.grams + (sums?.hanging ?? 0);
      refuseMoreThanAnimal(session, animal, sums, { ...given, grams }, 'received');
    }
    if (!given.confirmed) askAboutCarcass(session, animal, sums, given);
  }
}

/** Packages come out of the animal, so together they weigh no more than it. */
function askAboutPackages(
  session: Session,
  sums: WeightSums | undefined,
  given: Candidate,
  base: 'hanging' | 'received',
): void {
  const { grams } = given;
  const whole = sums?.[base] ?? null;
  const overGrams = (sums?.packed ?? 0) + grams - (whole ?? 0);
  if (whole !== null && overGrams > whole * (MAX_OVER - 1))
    throw new ProblemError('conflict', 'weight.over', {
      field: 'typed',
      with: { grams, ...saidAs(session, given), part: 'package', overGrams },
    });
}

function refuseMoreThanAnimal(
  session: Session,
  animal: AnimalRow,
  sums: WeightSums | undefined,
  given: Candidate,
  base: 'hanging' | 'received',
  culprit: () => ExplainedWeight | null = () => null,
): void {
  const whole = sums?.[base] ?? null;
  if (whole === null || given.grams <= whole * MAX_OVER) return;
  throw new ProblemError('refused', 'weight.more-than-animal', {
    field: 'typed',
    with: {
      grams: given.grams,
      ...saidAs(session, given),
      baseGrams: whole,
      base,
      ...saidOf(session, onlyTyped(session, animal, base), 'baseSaid'),
      ...offerOf(culprit()),
    },
  });
}

/** What was typed, unless a container or earlier weights are part of the weight in question. */
const saidAs = (session: Session, { grams, reading }: Candidate): Record<string, string> =>
  grams === readingGrams(reading) ? saidOf(session, reading.typed) : {};

/** The likely intended weight as text that can be typed. */
function offerOf(found: ExplainedWeight | null): Record<string, string> {
  if (!found) return {};
  const { kind, meant } = slipOf(found);
  if (meant) return { likely: typedText(meant), slip: kind };
  return kind === 'unknown' ? {} : { slip: kind };
}

/**
 * Asks only if this weight itself is the most likely error. If an earlier weight explains the set better, the list
 * marks that one and this one is saved.
 */
function askAboutPart(
  session: Session,
  animal: AnimalRow,
  sums: WeightSums | undefined,
  given: Candidate,
): void {
  const base = shareBase(animal, sums, session.species.of(animal.species));
  const part = PART_OF[given.part];
  if (base === null || !sums || !part) return;
  const found = culpritWith(session, animal, sums, given);
  if (!found) return;
  const { grams } = given;
  const usual = session.yields.sharesBeside(animal)[part];
  const overGrams = allParts(sums) + grams - (sums.hanging ?? sums.received ?? base) * MAX_OVER;
  const parameters = { grams, ...saidAs(session, given), part: given.part, ...offerOf(found) };
  throw new ProblemError('conflict', overGrams > 0 ? 'weight.over' : 'weight.unlikely', {
    field: 'typed',
    with:
      overGrams > 0
        ? { ...parameters, overGrams }
        : { ...parameters, low: usual.low * base, high: usual.high * base },
  });
}

function askAboutCarcass(
  session: Session,
  animal: AnimalRow,
  sums: WeightSums | undefined,
  given: Candidate,
): void {
  const species = session.species.of(animal.species);
  const parts = session.book.animals.parts(animal.id);
  const { low, high, target } = carcassLimits(animal, species, given.stage, parts, sums?.received ?? null);
  const inPieces = !isWholeCarcass(animal.brought);
  const before =
    given.stage === 'hanging' ? (sums?.hanging ?? 0) : inPieces ? ((sums && sums.received) ?? 0) : 0;
  const total = given.grams + before;
  // Pieces are weighed one by one: each is compared with the minimum, their sum with the maximum.
  if ((inPieces ? given.grams : total) >= low && total <= high) {
    if (given.stage === 'hanging' && !inPieces && sums) askAboutHookLoss(session, animal, sums, given);
    return;
  }
  const [slip] = likelyMistypes(given.reading, high, Math.max(target - before, low));
  throw new ProblemError('conflict', 'weight.unlikely', {
    field: 'typed',
    with: {
      grams: total,
      ...(before === 0 ? saidAs(session, given) : {}),
      part: inPieces ? 'pieces' : 'carcass',
      low,
      high,
      ...(slip && slip.grams >= low && slip.grams + before <= high ? { likely: typedText(slip) } : {}),
    },
  });
}

/** Asks if the hook loss would make the balance inconsistent. */
function askAboutHookLoss(session: Session, animal: AnimalRow, sums: WeightSums, given: Candidate): void {
  const { received, hanging } = sums;
  if (received === null || !misfitsWith(session, animal, sums, given)) return;
  const lost = session.shrink.lost(animal, session.species.of(animal.species), received, session.now());
  const [mean, sd] = [received * (1 - lost.mean), received * lost.sd];
  const before = hanging ?? 0;
  const [slip] = likelyMistypes(given.reading, 2 * sd, mean - before);
  throw new ProblemError('conflict', 'weight.unlikely', {
    field: 'typed',
    with: {
      grams: given.grams + before,
      ...(before === 0 ? saidAs(session, given) : {}),
      part: 'hook',
      baseGrams: received,
      ...saidOf(session, onlyTyped(session, animal, 'received'), 'baseSaid'),
      low: mean - EIGHT_IN_TEN * sd,
      high: Math.min(received, mean + EIGHT_IN_TEN * sd),
      ...(slip ? { likely: typedText(slip, session.settings.unit) } : {}),
    },
  });
}
