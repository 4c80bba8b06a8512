/** A look through the files of all photographs, and what can be brought back. */
import * as v from 'valibot';
import { backupFolder } from '../../book/file/backup.ts';
import { identityOf } from '../../book/file/book-identity.ts';
import { bringPhotosBack } from '../../book/file/photos/copies.ts';
import { photoFolder, readPhoto } from '../../book/file/photos/files.ts';
import type { PhotoCheck } from '../contract/photo.ts';
import { storedLock } from '../session/make-backup.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { mapInSlices } from '../session/slices.ts';

/**
 * Looks through the files of all photographs that stand: none may be missing or differ from its digest. One that does comes back
 * if a backup has it.
 */
export const check = read(v.object({}), async (session): Promise<PhotoCheck> => {
  const found: PhotoCheck = { count: 0, broughtBack: 0, missing: [], altered: [] };
  const folder = photoFolder(session.book.path);
  await mapInSlices(session.book.photographs.standing(), ({ ticket, digest }) => {
    found.count += 1;
    const { state } = readPhoto(folder, digest);
    if (state === 'here') return;
    if (bringBack(session, digest)) found.broughtBack += 1;
    else if (!found[state].includes(ticket)) found[state].push(ticket);
  });
  return found;
});

/** Brings a file back from the copies among the backups: beside the book, else in the second place. */
function bringBack({ book, settings }: Session, digest: string): boolean {
  const identity = identityOf(book.db);
  if (identity === null) return false;
  const job = { photos: photoFolder(book.path), identity };
  const places = [
    { folder: backupFolder(book.path), lock: null },
    { folder: settings.secondBackupFolder, lock: storedLock(book) || null },
  ].filter((place) => place.folder !== '');
  return places.some((place) => bringPhotosBack({ ...job, ...place }, [digest], new Date()) === 0);
}
