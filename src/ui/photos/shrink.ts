/** A picture from a camera or a file as a photograph that the desk takes: upright and small. Drawn anew, it has no place or camera. */
import { MAX_PHOTO_BYTES, MAX_PHOTO_SIDE } from '../../trade/photo.ts';

/** Tried one after the other until the file is small enough. */
const QUALITIES = [0.85, 0.7, 0.5, 0.3];

/** @returns null for what this browser cannot read as a picture */
export async function shrunk(file: Blob): Promise<Uint8Array<ArrayBuffer> | null> {
  let bitmap: ImageBitmap;
  try {
    // Turned as the camera was held: the photograph itself carries no orientation.
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
  const scale = Math.min(1, MAX_PHOTO_SIDE / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  for (const quality of QUALITIES) {
    const drawn = await new Promise<Blob | null>((made) => canvas.toBlob(made, 'image/jpeg', quality));
    if (!drawn) return null;
    if (drawn.size <= MAX_PHOTO_BYTES) return new Uint8Array(await drawn.arrayBuffer());
  }
  return null;
}
