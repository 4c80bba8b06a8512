/** Where the pages of a window get their pictures. */
import { inject, type InjectionKey } from 'vue';
import type { Answer } from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';

/** The address of a picture, by the digest of its file. */
export type PhotoSource = (digest: string) => Promise<Answer<string>>;

/** A station provides its own. */
export const PHOTO_SOURCE: InjectionKey<PhotoSource> = Symbol('photo source');

export const usePhotoSource = (): PhotoSource => inject(PHOTO_SOURCE, fromDesk);

async function fromDesk(digest: string): Promise<Answer<string>> {
  const answer = await call('photos.read', { digest });
  return answer.ok ? { ok: true, value: `data:image/jpeg;base64,${answer.value.base64}` } : answer;
}
