/** Keeps the computer awake while stations are on: asleep it is out of their reach. The screen may go dark. */
import { powerSaveBlocker } from 'electron';

/** @returns what says whether stations are on now */
export function keepAwakeForStations(): (on: boolean) => void {
  let blocker: number | null = null;
  return (on) => {
    if (on) blocker ??= powerSaveBlocker.start('prevent-app-suspension');
    else if (blocker !== null) {
      powerSaveBlocker.stop(blocker);
      blocker = null;
    }
  };
}
