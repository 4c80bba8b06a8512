/** Where a station's pages get their pictures: from this device while they wait, else from the desk. */
import type { Problem } from '../../bridge/contract.ts';
import { DeskAway, ShutOut } from '../../bridge/client/station/requests.ts';
import type { PhotoSource } from '../photos/source.ts';
import { keptPhoto } from './kept/photos.ts';
import { useLine } from './line.ts';

const none = (kind: Problem['kind'], code: string) => ({ ok: false, problem: { kind, code } }) as const;

export const photoAtStation: PhotoSource = async (digest) => {
  const kept = await keptPhoto(digest);
  const { requests } = useLine();
  try {
    const file = kept ? new Blob([kept], { type: 'image/jpeg' }) : await requests?.photo(digest);
    return file ? { ok: true, value: URL.createObjectURL(file) } : none('missing', 'photo.unknown');
  } catch (error) {
    if (error instanceof DeskAway || error instanceof ShutOut) return none('missing', 'station.away');
    throw error;
  }
};
