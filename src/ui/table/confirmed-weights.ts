import { defineStore } from 'pinia';
import { reactive } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/** What somebody looked at and stood by, while this opening of the book is shown: nobody is asked twice. */
export const useConfirmedWeights = defineStore('stood by', () => {
  const weighings = reactive(new Set<number>());
  /** Weighings kept in spite of a doubt at the entry: asked about once more if the parts come to more than the animal. */
  const confirmed = reactive(new Set<number>());
  /** Animals whose weights were looked through, with how many there were: another weight asks again. */
  const animals = reactive(new Map<number, number>());

  onOtherOpening(() => {
    for (const one of [weighings, confirmed, animals]) one.clear();
  });
  return { weighings, confirmed, animals };
});
