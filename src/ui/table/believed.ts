import { reactive } from 'vue';

/** Weighings that somebody looked at and stood by, while this window is open: nobody is asked twice. */
export const believed = reactive(new Set<number>());
