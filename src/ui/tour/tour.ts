import { useLocalStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { computed } from 'vue';
import { stops } from './stops.ts';

interface TourState {
  /** The stop that is on, or where it goes on. */
  at: number;
  open: boolean;
}

const ANEW: Readonly<TourState> = { at: 0, open: false };

/** What lies in the store may be of anybody's hand: what makes no sense is a tour that has not begun. */
function readStored(stored: string): TourState {
  try {
    const found = JSON.parse(stored) as Partial<TourState> | null;
    const at = stops.findIndex((_, index) => index === found?.at);
    return at < 0 ? ANEW : { at, open: found?.open === true };
  } catch {
    return ANEW;
  }
}

/** How far the tour has come. This computer keeps it, so that it can be left and gone on with. */
export const useTour = defineStore('tour', () => {
  const stored = useLocalStorage<TourState>('gambrel.tour', ANEW, {
    serializer: { read: readStored, write: JSON.stringify },
    writeDefaults: false,
    listenToStorageChanges: false,
    shallow: true,
  });

  /** Begins, or goes on where it was left. */
  const goOn = (): void => void (stored.value = { ...stored.value, open: true });

  /** The stop before (-1) or after (1); after the last one the tour is over and begins anew the next time. */
  function step(by: 1 | -1): void {
    const at = stored.value.at + by;
    stored.value = at >= stops.length ? ANEW : { at: Math.max(0, at), open: true };
  }

  /** Puts the tour away at the stop where it is. */
  const leave = (): void => void (stored.value = { ...stored.value, open: false });

  return {
    at: computed(() => stored.value.at),
    isOpen: computed(() => stored.value.open),
    goOn,
    step,
    leave,
  };
});
