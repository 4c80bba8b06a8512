/** Sends the file of a photograph before the entry that names it. */
import type { KeptEntry } from '../../bridge/client/station/outbox.ts';
import { DeskAway, type StationRequests } from '../../bridge/client/station/requests.ts';
import { digestIn, keptPhoto } from './kept/photos.ts';

/**
 * Does nothing for any other entry. What the desk has against a file it says of its entry; a full disk there stops the line.
 * @throws DeskAway, ShutOut
 */
export async function sendPhotoOf(
  entry: Pick<KeptEntry, 'name' | 'input'>,
  requests: Pick<StationRequests, 'putPhoto'>,
): Promise<void> {
  const digest = digestIn(entry);
  const file = digest === null ? undefined : await keptPhoto(digest);
  // Without a file here the desk may have it: a restored book asks again for what is kept no longer.
  if (digest === null || !file) return;
  const answer = await requests.putPhoto(digest, file);
  if (!answer.ok && answer.problem.kind === 'broken') throw new DeskAway(answer.problem);
}
