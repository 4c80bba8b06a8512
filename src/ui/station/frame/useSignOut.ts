import { useIdle } from '@vueuse/core';
import { watch } from 'vue';
import { useLine } from '../line.ts';

/** As long as the desk keeps somebody signed in who does nothing (src/desk/stations/people.ts), ms. */
const IDLE = 10 * 60_000;

/** Signs out whoever left the station. */
export function useSignOut(): void {
  const line = useLine();
  const { idle } = useIdle(IDLE);
  watch(idle, (isIdle) => {
    if (isIdle) line.signedIn = null;
  });
}
