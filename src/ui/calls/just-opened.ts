import { defineStore } from 'pinia';
import type { AnimalPage } from '../../bridge/contract.ts';
import { onOtherOpening } from '../link/opening.ts';

/** Holds an animal that was just looked up by ticket, so that its page opens without a second call. */
export const useJustOpened = defineStore('just opened', () => {
  let opened: AnimalPage | null = null;
  onOtherOpening(() => (opened = null));

  function put(page: AnimalPage): void {
    opened = page;
  }

  /** Returns the animal of this ticket if it was just looked up, and removes it. */
  function take(ticket: string): AnimalPage | null {
    const found = opened?.ticket === ticket ? opened : null;
    opened = null;
    return found;
  }
  return { put, take };
});
