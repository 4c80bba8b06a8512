import { defineStore } from 'pinia';
import type { AnimalPage } from '../../bridge/contract.ts';
import { onOtherOpening } from '../link/opening.ts';

/** An animal just looked up by its ticket, until its page takes it, so that opening it needs one call, not two. */
export const useJustOpened = defineStore('just opened', () => {
  let opened: AnimalPage | null = null;
  onOtherOpening(() => (opened = null));

  function put(page: AnimalPage): void {
    opened = page;
  }

  /** Returns the animal of this ticket if it was just looked up, once: the next call goes to the desk. */
  function take(ticket: string): AnimalPage | null {
    const found = opened?.ticket === ticket ? opened : null;
    opened = null;
    return found;
  }
  return { put, take };
});
