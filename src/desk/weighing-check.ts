/** Whether a weight can be: impossible ones are refused, unlikely ones are asked about, and the likely slip is offered. */
import type { AnimalRow } from '../book/animals.ts';
import type { WeightSums } from '../book/weighings.ts';
import { likelyMistypes } from '../core/mistype.ts';
import type { Reading } from '../core/reading.ts';
import type { SpeciesProfile } from '../core/species.ts';
import type { Part, Range } from '../core/yield.ts';
import { carcassLimits } from './carcass-limits.ts';
import { askAboutPrimal } from './primal-check.ts';
import { Trouble } from './problem.ts';
import type { DeskRoom } from './room.ts';
import { typedText } from './typed-text.ts';
import { baseGrams } from './take-home.ts';

interface Candidate {
  stage: string;
  part: string;
  primal?: string | null;
  reading: Reading;
  tare: Reading | null;
  grams: number;
  sure: boolean;
}

/** The yield model's name for each part of the table. */
export const PART_OF: Readonly<Record<string, Part>> = {
  'whole cuts': 'wholeCuts',
  trim: 'trim',
  'fat saved': 'fatSaved',
  sinew: 'sinew',
  bone: 'bone',
  damage: 'damage',
};
/** Two scales, a wet hide and a rounded step: parts may outweigh their animal by this much before it is said. */
const SLACK = 1.005;
/** Standard deviations above the usual share at which a part is asked about, and a margin for small parts. */
const ASK_ABOVE_SD = 4;
const ASK_MARGIN = 0.02;
/** An 80 % range is 2.56 standard deviations wide. */
const SD_OF_RANGE = 2.56;

/** What the parts of this animal are shares of, also when only the weight in its hide is known. */
export function shareBase(
  animal: AnimalRow,
  sums: WeightSums | undefined,
  { ratios }: Pick<SpeciesProfile, 'ratios'>,
): number | null {
  if (!sums) return null;
  const base = baseGrams({ brought: animal.brought, hanging: sums.hanging, received: sums.received });
  if (base !== null || sums.received === null) return base;
  return sums.received * ratios.dressedToHanging.mean;
}

export function sdOf(range: Range): number {
  return (range.high - range.low) / SD_OF_RANGE;
}

/** @throws Trouble `weight.more-than-animal` (refused); `weight.unlikely`, `weight.over` (conflict, unless `sure`) */
export function checkAnimalWeight(room: DeskRoom, animal: AnimalRow, given: Candidate): void {
  const sums = room.book.weighings.sums(animal.id);
  if (given.stage === 'cut' || given.stage === 'primal' || given.stage === 'packed') {
    refuseMoreThanAnimal(sums, given, sums?.hanging === null || sums === undefined ? 'received' : 'hanging');
    if (given.sure) return;
    if (given.stage === 'cut') askAboutPart(room, animal, sums, given);
    if (given.stage === 'primal')
      askAboutPrimal(
        room,
        animal,
        shareBase(animal, sums, room.species.of(animal.species)),
        sums?.hanging ?? sums?.received ?? null,
        given,
      );
  } else {
    if (given.stage === 'hanging')
      refuseMoreThanAnimal(sums, { ...given, grams: given.grams + (sums?.hanging ?? 0) }, 'received');
    if (!given.sure) askAboutCarcass(room, animal, sums, given);
  }
}

function refuseMoreThanAnimal(
  sums: WeightSums | undefined,
  given: Candidate,
  base: 'hanging' | 'received',
): void {
  const whole = sums?.[base] ?? null;
  if (whole !== null && given.grams > whole * SLACK)
    throw new Trouble('refused', 'weight.more-than-animal', {
      field: 'typed',
      with: { grams: given.grams, baseGrams: whole, base },
    });
}

function askAboutPart(
  room: DeskRoom,
  animal: AnimalRow,
  sums: WeightSums | undefined,
  given: Candidate,
): void {
  const base = shareBase(animal, sums, room.species.of(animal.species));
  const part = PART_OF[given.part];
  if (base === null || !sums || !part) return;
  const shares = room.yields.sharesBeside(animal);
  const before = weighedOf(sums, part);
  const usual = shares[part];
  const target = Math.max(0, usual.mean * base - before);
  // Looked for only when something is asked: it tries every slip of the finger.
  const likely = () => likelyText(room, given, target, Math.max(sdOf(usual) * 2, ASK_MARGIN) * base);
  const over = allParts(sums) + given.grams - (sums.hanging ?? sums.received ?? base) * SLACK;
  if (over > 0)
    throw new Trouble('conflict', 'weight.over', {
      field: 'typed',
      with: { grams: given.grams, part: given.part, overGrams: over, ...likely() },
    });
  // Whole cuts and trim follow the order, so they are held against the meat that they make up together.
  const heap = part === 'wholeCuts' || part === 'trim' ? 'meat' : part;
  const total = weighedOf(sums, heap) + given.grams;
  const most = (shares[heap].mean + ASK_ABOVE_SD * sdOf(shares[heap]) + ASK_MARGIN) * base;
  if (total > most)
    throw new Trouble('conflict', 'weight.unlikely', {
      field: 'typed',
      with: {
        grams: given.grams,
        part: given.part,
        low: usual.low * base,
        high: usual.high * base,
        ...likely(),
      },
    });
}

function askAboutCarcass(
  room: DeskRoom,
  animal: AnimalRow,
  sums: WeightSums | undefined,
  given: Candidate,
): void {
  const species = room.species.of(animal.species);
  const parts = room.book.animals.parts(animal.id);
  const { low, high, target } = carcassLimits(animal, species, given.stage, parts, sums?.received ?? null);
  const inPieces = animal.brought !== 'whole' && animal.brought !== 'skinned';
  const before =
    given.stage === 'hanging' ? (sums?.hanging ?? 0) : inPieces ? ((sums && sums.received) ?? 0) : 0;
  const total = given.grams + before;
  // Pieces are weighed one by one: each is held against the least, all of them against the most.
  if ((inPieces ? given.grams : total) >= low && total <= high) return;
  const [slip] = likelyMistypes(given.reading, high, Math.max(target - before, low));
  throw new Trouble('conflict', 'weight.unlikely', {
    field: 'typed',
    with: {
      grams: total,
      part: inPieces ? 'pieces' : 'carcass',
      low,
      high,
      ...(slip && slip.grams >= low && slip.grams + before <= high ? { likely: typedText(slip) } : {}),
    },
  });
}

function likelyText(
  room: DeskRoom,
  given: Candidate,
  target: number,
  tolerance: number,
): { likely?: string } {
  if (target <= 0) return {};
  const [slip] = likelyMistypes(given.reading, tolerance, target);
  return slip ? { likely: typedText(slip, room.settings.unit) } : {};
}

/** Grams weighed of a part so far; `meat` is whole cuts and trim together. */
export function weighedOf(sums: WeightSums, part: Part): number {
  switch (part) {
    case 'wholeCuts':
      return sums.whole_cuts ?? 0;
    case 'trim':
      return sums.trim ?? 0;
    case 'meat':
      return (sums.whole_cuts ?? 0) + (sums.trim ?? 0);
    case 'fatSaved':
      return sums.fat_saved ?? 0;
    case 'sinew':
      return sums.sinew ?? 0;
    case 'bone':
      return sums.bone ?? 0;
    case 'damage':
      return sums.damage ?? 0;
    default:
      return 0;
  }
}

export function allParts(sums: WeightSums): number {
  return (['meat', 'fatSaved', 'sinew', 'bone', 'damage'] as const).reduce(
    (total, part) => total + weighedOf(sums, part),
    0,
  );
}
