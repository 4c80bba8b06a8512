import { useLocalStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { computed } from 'vue';
import { stops } from './stops.ts';

interface TourState {
  /** The current stop, also while paused. */
  at: number;
  open: boolean;
}

const ANEW: Readonly<TourState> = { at: 0, open: false };

/** The storage may contain anything: invalid content counts as a tour that has not started. */
function readStored(stored: string): TourState {
  try {
    const found = JSON.parse(stored) as Partial<TourState> | null;
    const at = stops.findIndex((_, index) => index === found?.at);
    return at < 0 ? ANEW : { at, open: found?.open === true };
  } catch {
    return ANEW;
  }
}

/** The progress of the tour, stored on this computer, so that it can be paused and resumed. */
export const useTour = defineStore('tour', () => {
  const stored = useLocalStorage<TourState>('gambrel.tour', ANEW, {
    serializer: { read: readStored, write: JSON.stringify },
    writeDefaults: false,
    listenToStorageChanges: false,
    shallow: true,
  });

  /** Starts or resumes. */
  const goOn = (): void => void (stored.value = { ...stored.value, open: true });

  /** The stop before (-1) or after (1); after the last one the tour ends and starts over the next time. */
  function step(by: 1 | -1): void {
    const at = stored.value.at + by;
    stored.value = at >= stops.length ? ANEW : { at: Math.max(0, at), open: true };
  }

  /** Pauses the tour at its current stop. */
  const leave = (): void => void (stored.value = { ...stored.value, open: false });

  return {
    at: computed(() => stored.value.at),
    isOpen: computed(() => stored.value.open),
    goOn,
    step,
    leave,
  };
});
