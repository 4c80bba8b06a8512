/** Checks the weight of a primal: refused if the primal did not come in, confirmed if the weight is unlikely. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { likelyMistypes } from '../../core/values/mistype.ts';
import type { Reading } from '../../core/values/reading.ts';
import {
  ASK_SD,
  likelyBase,
  PRIMAL_SPREAD,
  primalRows,
  primalsOf,
  usualRange,
  type PrimalKnown,
} from './primals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { typedText } from '../input/typed-text.ts';

/** Stages at which a weight may belong to one primal: the whole primal, or a part cut from it. */
const OF_A_PRIMAL: readonly string[] = ['primal', 'cut'];

/** @throws ProblemError `primal.needed`, `primal.unknown`, `primal.not-brought`, `input.invalid` */
export function checkPrimalCode(
  session: Session,
  animal: AnimalRow,
  { stage, primal }: { stage: string; primal?: string | null },
): void {
  if (!primal) {
    if (stage === 'primal') throw new ProblemError('invalid', 'primal.needed', { field: 'primal' });
    return;
  }
  if (!OF_A_PRIMAL.includes(stage)) throw new ProblemError('invalid', 'input.invalid', { field: 'primal' });
  const known = knownPrimals(session, animal).find(({ code }) => code === primal);
  if (!known) throw new ProblemError('invalid', 'primal.unknown', { field: 'primal', with: { primal } });
  if (known.brought === 0)
    throw new ProblemError('refused', 'primal.not-brought', {
      field: 'primal',
      with: { primal: known.name, ticket: animal.ticket },
    });
}

/** @throws ProblemError `weight.over`, `weight.unlikely` (conflict) */
export function askAboutPrimal(
  session: Session,
  animal: AnimalRow,
  own: number | null,
  whole: number | null,
  given: { primal?: string | null; reading: Reading; grams: number },
): void {
  const primals = knownPrimals(session, animal);
  const primal = primals.find(({ code }) => code === given.primal);
  if (own === null || !primal) return;
  const weighed = primalRows(session.book.weighings.ofAnimal(animal.id));
  const base = likelyBase(primals, weighed, own);
  const sum = (rows: readonly { grams: number }[]) => rows.reduce((total, { grams }) => total + grams, 0);
  const before = sum(weighed.get(primal.code) ?? []);
  const parameters = { grams: given.grams, part: 'primal', primal: primal.name };
  const over = sum([...weighed.values()].flat()) + given.grams - (whole ?? own) * MAX_OVER;
  const likely = () => likelySlip(session, given.reading, targetsOf(primal, base, before));
  if (over > 0)
    throw new ProblemError('conflict', 'weight.over', {
      field: 'typed',
      with: { ...parameters, overGrams: over, ...likely() },
    });
  const mean = primal.share * base;
  const total = before + given.grams;
  const most = mean * (1 + ASK_SD * PRIMAL_SPREAD);
  // One side of a pair may be on the scale, so the minimum is that of one piece.
  const least = (mean / primal.brought) * (1 - ASK_SD * PRIMAL_SPREAD);
  if (total > most || total < least)
    throw new ProblemError('conflict', 'weight.unlikely', {
      field: 'typed',
      with: { ...parameters, grams: total, ...usualRange(mean), ...likely() },
    });
}
/** Tolerance of two scales and a rounded step: primals may outweigh their animal by this much. */
const MAX_OVER = 1.005;

function knownPrimals(session: Session, animal: AnimalRow): PrimalKnown[] {
  return primalsOf(session.species.of(animal.species), session.book.animals.parts(animal.id));
}

/** Likely intended weights: the rest of the primal, or one piece of it. */
function targetsOf({ share, brought }: PrimalKnown, base: number, before: number): number[] {
  const mean = share * base;
  return [mean - before, mean / brought].filter((target) => target > 0);
}

function likelySlip(session: Session, reading: Reading, targets: readonly number[]): { likely?: string } {
  const slips = targets.map((target) => likelyMistypes(reading, 2 * PRIMAL_SPREAD * target, target)[0]);
  const best = slips.find((slip) => slip !== undefined);
  return best ? { likely: typedText(best, session.settings.unit) } : {};
}
