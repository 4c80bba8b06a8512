/** What weighings do to the fat on hand. Every movement is a row; a voided weighing is answered by a row back. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { FatLotRecord, FatMovementRow } from '../../book/records/fat-lots.ts';
import { ProblemError } from '../contract/problem.ts';
import { ownFatSource } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';

/** What is read of own fat that went with its animal. */
const DISPOSED_NOTE = 'disposed of with its animal';

/** Less than this is a rounded scale step, not fat. */
export const ROUNDING_TOLERANCE_GRAMS = 5;

/** Puts fat saved at the table into the animal's own lot, made when its first fat is saved. */
export function saveOwnFat(
  session: Session,
  animal: AnimalRow,
  weighed: { weighingId: number; grams: number },
  from: { typed: string; by: string },
): void {
  const lotId = session.book.fat.ofAnimal(animal.id)?.id ?? addOwnLot(session, animal, from.by);
  session.book.fat.move({
    lotId,
    kind: 'saved',
    grams: weighed.grams,
    typed: from.typed,
    weighingId: weighed.weighingId,
    at: session.now(),
    by: from.by,
  });
}

/** Takes fat out of a lot for a batch. @throws ProblemError `fat.not-enough` */
export function moveFat(
  session: Session,
  lotId: number,
  weighed: { weighingId: number; grams: number },
  from: { typed: string; by: string },
): void {
  const lot = lotOf(session, lotId);
  if (weighed.grams > lot.left_grams + ROUNDING_TOLERANCE_GRAMS)
    throw new ProblemError('refused', 'fat.not-enough', {
      field: 'typed',
      with: { grams: weighed.grams, leftGrams: Math.max(0, lot.left_grams), lot: lot.name },
    });
  session.book.fat.move({
    lotId,
    kind: 'into batch',
    grams: -weighed.grams,
    typed: from.typed,
    weighingId: weighed.weighingId,
    at: session.now(),
    by: from.by,
  });
}

/**
 * Answers what a voided weighing had moved. A lot that was counted meanwhile may hold some of it already: no more than ever
 * came in is on hand again.
 */
export function returnFat(session: Session, weighingId: number, by: string): void {
  for (const { lot_id, grams } of session.book.fat.ofWeighing(weighingId)) {
    const { start_grams: came, left_grams: left } = lotOf(session, lot_id);
    const back = grams < 0 ? Math.min(-grams, Math.max(0, came - left)) : -grams;
    if (back !== 0)
      session.book.fat.move({
        lotId: lot_id,
        kind: 'voided',
        grams: back,
        typed: null,
        weighingId,
        at: session.now(),
        by,
      });
  }
}

/**
 * Fat saved of an animal that is done away with goes the same way.
 * @returns the id of the movement, which the disposal's entry in the audit names; null where no fat is left
 */
export function discardOwnFat(session: Session, animal: Pick<AnimalRow, 'id'>, by: string): number | null {
  const lot = session.book.fat.ofAnimal(animal.id);
  if (!lot || lot.left_grams <= 0) return null;
  return session.book.fat.move({
    lotId: lot.id,
    kind: 'thrown out',
    grams: -lot.left_grams,
    typed: null,
    weighingId: null,
    note: DISPOSED_NOTE,
    at: session.now(),
    by,
  });
}

/**
 * Own fat that left with an animal is on hand again, now that the animal is. What a person threw out before stays thrown
 * out, whatever reason was given.
 */
export function restoreOwnFat(session: Session, animal: Pick<AnimalRow, 'id' | 'stage'>, by: string): void {
  const lot = session.book.fat.ofAnimal(animal.id);
  const last = lot && session.book.fat.movements(lot.id).at(-1);
  if (!lot || !last) return;
  const leftWithIt =
    animal.stage === 'released' ? last.kind === 'handed over' : wentWithDisposal(session, animal, last);
  if (!leftWithIt) return;
  const grams = -last.grams;
  session.book.fat.move({
    lotId: lot.id, kind: 'voided', grams, typed: null, weighingId: null, note: 'opened again', at: session.now(), by,
  }); // prettier-ignore
}

/**
 * Whether the animal's last disposal caused this movement. Its entry in the audit names the movement, or null; entries of
 * earlier versions name none, so there the note decides, for a movement that is no older than the disposal.
 */
function wentWithDisposal(session: Session, animal: Pick<AnimalRow, 'id'>, moved: FatMovementRow): boolean {
  const disposal = session.book.audit
    .of('animal', animal.id)
    .map(({ at, after }) => ({ at: at ?? '', after: JSON.parse(after ?? 'null') as DisposalEntry | null }))
    .findLast(({ after }) => after?.stage === 'disposed');
  if (!disposal?.after) return false;
  const named = disposal.after.fatMovementId;
  if (named !== undefined) return named === moved.id;
  return moved.kind === 'thrown out' && moved.note === DISPOSED_NOTE && moved.at >= disposal.at;
}

interface DisposalEntry {
  stage?: AnimalRow['stage'];
  fatMovementId?: number | null;
}

/** @throws ProblemError `fat.lot-unknown` */
export function lotOf(session: Session, id: number): FatLotRecord {
  const found = session.book.fat.get(id);
  if (!found) throw new ProblemError('missing', 'fat.lot-unknown', { field: 'fatLotId' });
  return found;
}

function addOwnLot(session: Session, animal: AnimalRow, by: string): number {
  const own = ownFatSource(session.species.of(animal.species));
  return session.book.fat.add({
    source: own.code, name: 'Own fat', animalId: animal.id, fat: own.fat, fatSd: own.sd, costMinor: null, costUnit: null,
    supplier: '', supplierLot: '', useBy: null, receivedOn: session.today(), at: session.now(), by,
  }); // prettier-ignore
}
