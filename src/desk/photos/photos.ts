/** Photographs of an animal: its tag, as it came, damage, a test result. The picture is a file that comes before its entry. */
import * as v from 'valibot';
import { DIGEST, digestOf, photoFolder, readPhoto, storePhoto } from '../../book/file/photos/files.ts';
import { actor } from '../../book/changes/acting.ts';
import { pictureOnly } from '../../core/photo/jpeg.ts';
import { MAX_PHOTO_BYTES, PHOTO_KINDS } from '../../trade/photo.ts';
import { animalOf, refuseStage } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import type { PhotoRead, PhotoRow, PhotoStored } from '../contract/photo.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';

/** Base64 has four letters for three bytes. */
const MAX_LETTERS = Math.ceil(MAX_PHOTO_BYTES / 3) * 4;
/** Files at a time without an entry: a station sends one after the other, so more come from a fault. Our choice, no source. */
const MAX_WAITING = 500;

const digest = v.pipe(
  v.string('input.invalid'),
  v.length(64, 'input.invalid'),
  v.regex(DIGEST, 'input.invalid'),
);
/** Digests of files stored in this opening whose entry did not come yet. */
const waiting = new WeakMap<Session, Set<string>>();

/**
 * Stores the file of a photograph, which counts once `photos.add` names it. The same file twice is one file. Of one that comes without
 * its digest only the picture is kept; one with a digest has to be a picture alone.
 * @throws ProblemError `photo.no-picture`, `photo.too-large`, `photo.not-bare` (it holds more than the picture: place, comments),
 *   `photo.other-digest`, `photo.waiting`
 */
export const store = read(
  v.object({
    /** Of the file, if the sender knows it. */
    digest: v.optional(digest),
    base64: v.pipe(v.string('input.invalid'), v.maxLength(MAX_LETTERS, 'photo.too-large')),
  }),
  (session, input): PhotoStored => {
    const sent = new Uint8Array(Buffer.from(input.base64, 'base64'));
    const file = pictureOnly(sent).bytes;
    const found = digestOf(file);
    if (input.digest !== undefined && file.length !== sent.length)
      throw new ProblemError('invalid', 'photo.not-bare');
    if (input.digest !== undefined && input.digest !== found)
      throw new ProblemError('conflict', 'photo.other-digest');
    const { path, photographs } = session.book;
    const those = waiting.get(session) ?? new Set();
    waiting.set(session, those);
    if (!photographs.needs(found) && those.add(found).size > MAX_WAITING) {
      those.delete(found);
      throw new ProblemError('refused', 'photo.waiting');
    }
    storePhoto(photoFolder(path), found, file, new Date());
    return { digest: found, bytes: file.length };
  },
);

/**
 * Adds a photograph whose file was stored.
 * @throws ProblemError `animal.unknown`, `animal.closed` (canceled), `photo.too-many`, `photo.twice`, `photo.not-here`
 */
export const add = write(
  v.object({
    animalId: id,
    kind: v.picklist(PHOTO_KINDS, 'input.invalid'),
    digest,
    /** When it was taken; now if absent. */
    takenAt: v.optional(
      v.pipe(v.string('input.invalid'), v.maxLength(40, 'input.invalid'), v.isoTimestamp('input.invalid')),
    ),
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.animalId);
    refuseStage(animal, 'canceled');
    refuseMoreOfAnimal(session, animal, 'photo');
    const { path, photographs } = session.book;
    if (photographs.ofAnimal(animal.id).some((row) => row.digest === input.digest))
      throw new ProblemError('refused', 'photo.twice', { with: { ticket: animal.ticket } });
    const file = readPhoto(photoFolder(path), input.digest);
    if (file.state !== 'here') throw new ProblemError('refused', 'photo.not-here');
    const { width, height } = pictureOnly(file.bytes);
    const at = session.now();
    const row = photographs.add({
      animalId: animal.id,
      kind: input.kind,
      digest: input.digest,
      bytes: file.bytes.length,
      width,
      height,
      stationId: actor()?.stationId ?? null,
      takenAt: takenBefore(input.takenAt, at),
      at,
      by: input.by,
    });
    waiting.get(session)?.delete(input.digest);
    return { id: row };
  },
);

/** A moment in the same form as others; a clock that is ahead takes no photographs in the future. */
function takenBefore(takenAt: string | undefined, now: string): string {
  const moment = takenAt === undefined ? now : new Date(takenAt).toISOString();
  return moment < now ? moment : now;
}

/** The photographs of an animal, in order of entry. @throws ProblemError `animal.unknown` */
export const list = read(
  v.object({ animalId: id }),
  (session, { animalId }): PhotoRow[] =>
  session.book.photographs
    .ofAnimal(animalOf(session, animalId).id)
    .map(({ id: row, kind, digest: file, width, height, takenAt, at, by: who, station }) => ({
      id: row, kind, digest: file, width, height, takenAt, at, by: who, station,
    })), // prettier-ignore
);

/**
 * The file of a photograph, compared with its digest.
 * @throws ProblemError `photo.unknown`, `photo.missing`, `photo.altered`
 */
export const readOne = read(v.object({ digest }), (session, input): PhotoRead => {
  const rows = session.book.photographs.ofDigest(input.digest);
  if (rows.length === 0) throw new ProblemError('missing', 'photo.unknown');
  const file = readPhoto(photoFolder(session.book.path), input.digest);
  if (file.state === 'missing') throw new ProblemError('broken', 'photo.missing');
  if (file.state === 'altered') throw new ProblemError('broken', 'photo.altered');
  return { kinds: rows.map(({ kind }) => kind), base64: file.bytes.toString('base64') };
});

/** Voids a photograph added by mistake; its file stays. @throws ProblemError `photo.unknown`, `photo.voided` */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const found = photoOf(session, input.id);
  if (found.voidBy !== null)
    throw new ProblemError('conflict', 'photo.voided', {
      with: { by: found.voidBy, reason: found.voidReason ?? '' },
    });
  session.book.photographs.void(found.id, input.reason, session.now(), input.by);
  return { id: found.id };
});

/**
 * Undoes a void: the photograph is added again as it was.
 * @throws ProblemError `photo.unknown`, `photo.not-voided`, `photo.twice`, `photo.too-many`
 */
export const restore = write(v.object({ id, by }), (session, input) => {
  const found = photoOf(session, input.id);
  const animal = animalOf(session, found.animalId);
  if (found.voidBy === null) throw new ProblemError('refused', 'photo.not-voided');
  if (session.book.photographs.ofAnimal(animal.id).some((row) => row.digest === found.digest))
    throw new ProblemError('refused', 'photo.twice', { with: { ticket: animal.ticket } });
  refuseMoreOfAnimal(session, animal, 'photo');
  return { id: session.book.photographs.add({ ...found, at: session.now(), by: input.by }) };
});

/** A photograph whose file is kept. @throws ProblemError `photo.unknown` */
function photoOf(session: Session, photoId: number) {
  const found = session.book.photographs.get(photoId);
  if (!found || found.removed === 1) throw new ProblemError('missing', 'photo.unknown');
  return found;
}
