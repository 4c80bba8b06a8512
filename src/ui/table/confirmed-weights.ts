import { defineStore } from 'pinia';
import { reactive } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/** Weights confirmed during this opening of the book, so that nobody is asked twice. */
export const useConfirmedWeights = defineStore('stood by', () => {
  const weighings = reactive(new Set<number>());
  /** Weighings saved despite a doubt at the entry; asked about again if the parts exceed the animal. */
  const confirmed = reactive(new Set<number>());
  /** Animals whose weights were reviewed, with the number of weights: another weight asks again. */
  const animals = reactive(new Map<number, number>());

  onOtherOpening(() => {
    for (const one of [weighings, confirmed, animals]) one.clear();
  });
  return { weighings, confirmed, animals };
});
