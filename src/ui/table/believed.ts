import { reactive } from 'vue';
import { onOtherOpening } from '../opening.ts';

/** Weighings that somebody looked at and stood by, while this opening of the book is shown: nobody is asked twice. */
export const believed = reactive(new Set<number>());

/** Weighings kept in spite of a doubt at the entry: asked about once more if the parts come to more than the animal. */
export const confirmed = reactive(new Set<number>());

/** Animals whose weights somebody looked through and stood by, with how many there were: another weight asks again. */
export const stoodBy = reactive(new Map<number, number>());

onOtherOpening(() => {
  stoodBy.clear();
  believed.clear();
  confirmed.clear();
});
