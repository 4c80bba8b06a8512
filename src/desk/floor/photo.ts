import { OF_PAPERS } from '../../trade/photo.ts';
import type { PhotoRead, PhotoRow } from '../contract/photo.ts';

/** Of `photos.list`: that papers were photographed, and not the pictures: names and numbers stand on them. */
export const photosForFloor = (rows: PhotoRow[]): PhotoRow[] =>
  rows.map((row) => (OF_PAPERS.includes(row.kind) ? { ...row, digest: '' } : row));

/** Of `photos.read`: no picture that is one of papers anywhere. */
export const photoForFloor = (photo: PhotoRead): PhotoRead =>
  photo.kinds.some((kind) => OF_PAPERS.includes(kind)) ? { ...photo, base64: '' } : photo;
