/** How weighings change the fat on hand. Every movement is a row; voiding a weighing adds an opposite row. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { FatLotRecord, FatMovementRow } from '../../book/records/fat-lots.ts';
import { ProblemError } from '../contract/problem.ts';
import { ownFatSource } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import { reasonKept } from '../../trade/offered.ts';

/** Note of the movement of own fat that was disposed of with its animal. */
const DISPOSED_NOTE = reasonKept('disposed-with-animal');

/** Amounts below this are scale rounding, not fat. */
export const ROUNDING_TOLERANCE_GRAMS = 5;

/** Adds fat saved at the Table to the animal's own lot; creates the lot for the first fat. */
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

/** What a problem says of a lot; the window words it. */
export function lotWith({ name, code, ticket }: Pick<FatLotRecord, 'name' | 'code' | 'ticket'>) {
  return { fatName: name, lotCode: code, ticket: ticket ?? '' };
}

/** Moves fat from a lot into a batch. @throws ProblemError `fat.not-enough` */
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
      with: {
        grams: weighed.grams,
        leftGrams: Math.max(0, lot.left_grams),
        ...lotWith(lot),
      },
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
 * Reverses the movement of a voided weighing. A later count of the lot may already include that fat, so the lot never
 * holds more than ever came in.
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
 * Discards the saved fat of an animal that is disposed of.
 * @returns the id of the movement, which the audit entry of the disposal refers to; null if no fat is left
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
 * Restores own fat that left with an animal. Fat that was discarded by hand before stays discarded, whatever reason
 * was given.
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
    lotId: lot.id, kind: 'voided', grams, typed: null, weighingId: null, note: reasonKept('opened-again'), at: session.now(), by,
  }); // prettier-ignore
}

/**
 * Whether the animal's last disposal caused this movement. Its audit entry names the movement, or null. Entries of
 * earlier versions name none; for these the note decides, if the movement is no older than the disposal.
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
