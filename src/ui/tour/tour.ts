/** How far the tour has come. This computer keeps it, so that it can be left and gone on with. */
import { computed, ref, type Ref } from 'vue';
import { stops } from './stops.ts';

const KEY = 'gambrel.tour';

interface Kept {
  /** The stop that is on, or where it goes on. */
  at: number;
  open: boolean;
}

const kept: Ref<Kept> = ref(readKept());

/** What lies in the store may be of anybody's hand: what makes no sense is a tour that has not begun. */
function readKept(): Kept {
  const anew: Kept = { at: 0, open: false };
  const stored = localStorage.getItem(KEY);
  if (stored === null) return anew;
  try {
    const found = JSON.parse(stored) as Partial<Kept> | null;
    const at = stops.findIndex((_, index) => index === found?.at);
    return at < 0 ? anew : { at, open: found?.open === true };
  } catch {
    return anew;
  }
}

function keep(now: Kept): void {
  kept.value = now;
  localStorage.setItem(KEY, JSON.stringify(now));
}

export const tourAt = computed(() => kept.value.at);
export const tourOpen = computed(() => kept.value.open);

/** Begins, or goes on where it was left. */
export const goOnWithTour = (): void => keep({ ...kept.value, open: true });

/** The stop before (-1) or after (1); after the last one the tour is over and begins anew the next time. */
export function stepTour(by: 1 | -1): void {
  const at = kept.value.at + by;
  if (at >= stops.length) keep({ at: 0, open: false });
  else keep({ at: Math.max(0, at), open: true });
}

/** Puts the tour away at the stop where it is. */
export const leaveTour = (): void => keep({ ...kept.value, open: false });
