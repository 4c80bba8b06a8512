/**
 * Checks before an animal is set ready that everything cut and ground is packed. Differences need one confirmation;
 * the audit keeps the answer with the figures.
 */
import type { AnimalRow } from '../../book/records/animals.ts';
import { toGrams } from '../../core/values/units.ts';
import type { ReadyDoubts } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { instructionsOf, ordersStatus } from './instructions.ts';
import { groundProducts, mayHoldAdded } from './product-named.ts';
import { losesWater } from './water-loss.ts';

/** Tolerance of two scales, and about the purge in vacuum packs. Common practice, no source. */
const AGREES = 0.02;
/** Differences below this are scraps and need no confirmation. Our choice. */
const SCRAP_GRAMS = 225;
/** Number of earlier animals that show whether the shop weighs packages of whole cuts. Our choice. */
const LEARNED_FROM = 20;

/**
 * The differences found, or null. Animals that go back unprocessed are not checked. Products that lose water in the
 * smoker or dryer are not compared. Whole cuts are compared only if the shop weighs their packages, else only trim.
 */
export function readyDoubts(session: Session, animal: Pick<AnimalRow, 'id' | 'season'>): ReadyDoubts | null {
  if (session.book.leaving.unprocessed(animal.id)) return null;
  const sums = session.book.weighings.sums(animal.id);
  const rows = session.book.weighings.ofAnimal(animal.id).filter(({ void_at }) => void_at === null);
  const packed = rows.filter(({ stage }) => stage === 'packed');
  const [wholeCuts, trim] = [sums?.whole_cuts ?? null, sums?.trim ?? 0];
  const cutGrams = (wholeCuts ?? 0) + trim;
  const [packedGrams, groundGrams] = [sums?.packed ?? 0, sums?.trim_ground ?? 0];
  const dried = packed.some(({ product }) => losesWater(session, product ?? ''));
  const isGround = groundProducts(session);
  const cuts = packed.filter(({ product }) => !isGround(product ?? ''));
  const fromTrim = groundGrams + groundPackages(session, animal.id, packed, trim - groundGrams);
  const cutsCount = cuts.length > 0 || (wholeCuts !== null && weighsCuts(session, animal));
  const counted = gramsOf(cuts) + fromTrim;
  const over = counted - cutGrams;
  const missing = (cutsCount ? cutGrams : trim) - counted;
  const tolerance = toleranceOf(session, cutGrams, rows.filter(({ stage }) => stage !== 'hanging').length);
  const unpacked = unpackedBatches(session, animal.id);
  const notMade = productsNotMade(session, animal.id, packed);
  const doubts: ReadyDoubts = {
    cutGrams,
    groundGrams,
    packedGrams,
    overGrams: wholeCuts !== null && over > tolerance ? over : 0,
    missingGrams: !dried && missing > tolerance ? missing : 0,
    unpacked,
    notMade,
  };
  const any = doubts.overGrams > 0 || doubts.missingGrams > 0 || unpacked.length > 0 || notMade.length > 0;
  return any ? doubts : null;
}

const gramsOf = (rows: readonly { grams: number }[]): number =>
  rows.reduce((total, { grams }) => total + grams, 0);

/**
 * Grams of ground packages from the Table that came off the animal. Products with added pork or fat count for at most
 * its trim.
 */
function groundPackages(
  session: Session,
  animalId: number,
  packed: readonly { product: string | null; grams: number }[],
  trimLeft: number,
): number {
  const isGround = groundProducts(session);
  const ground = packed.filter(({ product }) => isGround(product ?? ''));
  if (ground.length === 0) return 0;
  const { fat } = instructionsOf(session, animalId);
  const [mixed, plain] = [true, false].map((added) =>
    gramsOf(ground.filter(({ product }) => mayHoldAdded(session, product ?? '', fat) === added)),
  ) as [number, number];
  return plain + Math.min(mixed, Math.max(0, trimLeft - plain));
}

/** Whether the shop weighed packages of whole cuts for most of the preceding animals. */
function weighsCuts(session: Session, { id, season }: Pick<AnimalRow, 'id' | 'season'>): boolean {
  // The same result for ten consecutive animals, so that long lists use the cache.
  const before = id - (id % 10) + 1;
  return session.cached('animal', season, `weighs cuts before ${before}`, () => {
    const isGround = groundProducts(session);
    const recent = Map.groupBy(
      session.book.weighings.packedBefore(before, LEARNED_FROM),
      (row) => row.animal,
    );
    const weighed = [...recent.values()].filter((rows) =>
      rows.some(({ product }) => product !== null && !isGround(product)),
    );
    return weighed.length * 2 > recent.size;
  });
}

/** One scale step per weight, plus `AGREES` of what was cut. */
function toleranceOf({ settings }: Session, cutGrams: number, weights: number): number {
  return Math.max(SCRAP_GRAMS, cutGrams * AGREES + weights * toGrams(settings.step, settings.unit));
}

/** Batches with the animal's meat and no packages. */
function unpackedBatches(session: Session, animalId: number): ReadyDoubts['unpacked'] {
  return session.book.batches.ofAnimal(animalId).flatMap(({ id, name, product }) => {
    const rows = session.book.weighings.ofBatch(id).filter(({ void_at }) => void_at === null);
    if (rows.some(({ stage }) => stage === 'packed')) return [];
    const grams = rows
      .filter((row) => row.stage === 'grinder' && row.animal_id === animalId)
      .reduce((sum, row) => sum + row.grams, 0);
    return grams > 0 ? [{ batch: name, product, grams }] : [];
  });
}

/** Ordered products of which nothing was packed or ground. Defaults are not orders. */
function productsNotMade(
  session: Session,
  animalId: number,
  packed: readonly { product: string | null }[],
): string[] {
  if (ordersStatus(session, animalId) === 'not asked') return [];
  const { alsoGround, primals, cutsShare, grindProduct } = instructionsOf(session, animalId);
  const key = (text: string): string => text.trim().toLowerCase();
  const made = new Set([
    ...packed.map(({ product }) => key(product ?? '')),
    ...session.book.batches.ofAnimal(animalId).map(({ product }) => key(product)),
  ]);
  const grinds = primals.length > 0 ? primals.some(({ as }) => as === 'grind') : cutsShare < 1;
  const trim = session.book.weighings.sums(animalId)?.trim ?? 0;
  // Grinds with an amount of their own may use up all trim.
  const rest = trim - alsoGround.reduce((sum, { grams }) => sum + grams, 0);
  const wanted = [
    ...alsoGround.map(({ product }) => product),
    ...(grinds && rest > SCRAP_GRAMS ? [grindProduct] : []),
  ];
  return [...new Set(wanted)].filter((product) => !made.has(key(product)));
}

/**
 * Asks for confirmation of differences; a former answer to the same figures counts.
 * @returns the confirmed differences, to be stored with the stage change; null if there are none
 * @throws ProblemError `ready.amounts` (conflict: pass `confirmed` and an `answer`)
 */
export function askReady(
  session: Session,
  animal: AnimalRow,
  input: { confirmed: boolean; answer: string },
): ReadyDoubts | null {
  const doubts = readyDoubts(session, animal);
  if (!doubts || JSON.stringify(answeredOf(session, animal.id)?.doubts) === JSON.stringify(doubts))
    return null;
  if (input.confirmed && input.answer !== '') return doubts;
  const { unpacked, notMade, ...grams } = doubts;
  throw new ProblemError('conflict', 'ready.amounts', {
    field: 'answer',
    with: {
      ticket: animal.ticket,
      ...grams,
      unpacked: unpacked.map(({ batch, product }) => `${batch} (${product})`).join(', '),
      notMade: notMade.join(', '),
    },
  });
}

/** The last answer given when the animal was set ready, or null. */
export function answeredOf(
  session: Session,
  animalId: number,
): { doubts: ReadyDoubts; answer: string; by: string } | null {
  const entry = session.book.audit
    .of('animal', animalId)
    .findLast(({ after }) => after?.includes('"doubts"'));
  if (!entry) return null;
  const { doubts } = JSON.parse(entry.after ?? '{}') as { doubts: ReadyDoubts };
  return { doubts, answer: entry.reason ?? '', by: entry.by ?? '' };
}
