/** Writes weights of a table as they were typed, marked as imported. */
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import { isNonePart } from '../weighing/part-none.ts';
import type { Session } from '../session/session.ts';
import type { Writing } from './row-importer.ts';

/** Product of packages whose table does not name it. */
const MEAT = 'Meat';

export function saveWeight(
  session: Session,
  writing: Writing,
  weight: {
    animalId: number;
    stage: string;
    part: string;
    reading: Reading;
    tare?: Reading;
    product?: string;
    count?: number;
    note?: string;
  },
): void {
  const packed = weight.stage === 'packed';
  writing.weighing(
    session.book.weighings.add({
      animalId: weight.animalId,
      batchId: null,
      fatLotId: null,
      stage: weight.stage,
      part: weight.part,
      primal: null,
      product: packed ? weight.product || MEAT : null,
      count: packed ? (weight.count ?? 1) : null,
      place: null,
      reading: weight.reading,
      tare: weight.tare ?? null,
      grams: readingGrams(weight.reading) - (weight.tare ? readingGrams(weight.tare) : 0),
      source: 'import',
      note: weight.note ?? '',
      corrects: null,
      at: writing.at,
      by: writing.by,
    }),
  );
}

/** Adds a statement that an animal has none of a part, unless there is one. */
export function saveNone(session: Session, writing: Writing, animalId: number, part: string): void {
  if (!isNonePart(part))
    throw new Error(`a row that says none of ${part} is a problem, and nothing is written then`);
  if (session.book.partNone.ofAnimal(animalId).some((stated) => stated.part === part)) return;
  writing.partNone(session.book.partNone.add(animalId, part, writing.at, writing.by));
}
