import { defineStore } from 'pinia';
import type { AnimalPage } from '../../bridge/contract.ts';
import { onOtherOpening } from '../link/opening.ts';

/** An animal looked up by its ticket a moment ago, until its page takes it: opening it asks the desk once, not twice. */
export const useJustOpened = defineStore('just opened', () => {
  let opened: AnimalPage | null = null;
  onOtherOpening(() => (opened = null));

  function put(page: AnimalPage): void {
    opened = page;
  }

  /** The animal of this ticket if it was just looked up. It is given once: the next look asks the desk. */
  function take(ticket: string): AnimalPage | null {
    const found = opened?.ticket === ticket ? opened : null;
    opened = null;
    return found;
  }
  return { put, take };
});
