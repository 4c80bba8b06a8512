/** What the desk does by itself while it runs: backups, and noticing what another program wrote into the book. */
import { keepBackup } from './backup-keeping.ts';
import type { Door } from './door.ts';

export interface UpkeepTimes {
  /** How often a book that changed is backed up, ms. */
  backUpEvery: number;
  /** How often the book is asked whether another program wrote, ms. */
  lookEvery: number;
}

/** Half an hour of typing is what a dead computer may cost at most: our choice, no source. */
export const USUAL_TIMES: UpkeepTimes = { backUpEvery: 30 * 60_000, lookEvery: 2_000 };

/** Begins; the function that it returns ends it. */
export function startUpkeep(
  door: Door,
  { backUpEvery, lookEvery }: UpkeepTimes,
  announce: (call: string) => void,
): () => void {
  const backups = setInterval(() => {
    const { room } = door;
    if (!room || room.demo || !room.backups.due()) return;
    // What went wrong stays with the room, and the Shop shows it.
    keepBackup(room, door.now());
    announce('shop.backUp');
  }, backUpEvery);
  const looks = setInterval(() => {
    if (door.room?.othersWrote()) announce('shop.change');
  }, lookEvery);
  return () => {
    clearInterval(backups);
    clearInterval(looks);
  };
}
