/** Photographs of a few animals of the running season. */
import type { Book } from '../book/book.ts';
import { photoFolder, readPhoto, storePhoto } from '../book/file/photos/files.ts';
import type { PhotoKind } from '../trade/photo.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { pictureOf } from './pictures/draw.ts';
import type { Shop } from './shop-day.ts';

/** Every so many animals one is photographed; ticket 26-0147 is among them. */
const [EVERY, FIRST] = [60, 27];

export function takePhotographs({ counter }: Shop, { id, number, season }: DemoAnimal, by: string): void {
  if (!season.mistakes || number % EVERY !== FIRST) return;
  const kinds: PhotoKind[] = ['tag', 'animal', 'damage'];
  for (const kind of kinds) {
    const base64 = Buffer.from(pictureOf(kind, number)).toString('base64');
    const { digest } = counter.call('photos.store', { base64 });
    counter.call('photos.add', { animalId: id, kind, digest, by });
  }
}

/** Puts the pictures of a demo book, which was copied without them, beside it: those beside `keptAt`, or drawn anew. */
export function bringPhotographs({ db, path }: Pick<Book, 'db' | 'path'>, keptAt: string): void {
  const rows = db
    .prepare<[], { kind: PhotoKind; digest: string; number: number }>(
      'SELECT p.kind, p.digest, a.number FROM photograph p JOIN animal a ON a.id = p.animal_id',
    )
    .all();
  for (const { kind, digest, number } of rows) {
    const kept = readPhoto(photoFolder(keptAt), digest);
    const bytes = kept.state === 'here' ? kept.bytes : pictureOf(kind, number);
    storePhoto(photoFolder(path), digest, bytes, new Date());
  }
}
