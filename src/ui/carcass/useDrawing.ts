import { useMemoize } from '@vueuse/core';
import { shallowRef, watch, type Ref } from 'vue';
import { readDrawing, type Drawing } from './drawing.ts';
import bear from './drawings/bear.svg?url';
import bison from './drawings/bison.svg?url';
import boar from './drawings/boar.svg?url';
import cervid from './drawings/cervid.svg?url';
import pronghorn from './drawings/pronghorn.svg?url';

const files: Readonly<Record<string, string>> = { cervid, pronghorn, boar, bear, bison };

/**
 * The drawing of a build of body (`species.body`). Each file is fetched once.
 * @returns null while it is fetched, undefined if there is none: without it, every primal is a button with its name
 */
export function useDrawing(body: () => string): Readonly<Ref<Drawing | null | undefined>> {
  const drawing = shallowRef<Drawing | null>();
  watch(
    body,
    async (asked) => {
      const file = files[asked];
      drawing.value = file === undefined ? undefined : null;
      const fetched = file === undefined ? undefined : await fetchDrawing(file);
      if (asked === body()) drawing.value = fetched;
    },
    { immediate: true },
  );
  return drawing;
}

/** Undefined if the file is missing. */
const fetchDrawing = useMemoize(async (file: string): Promise<Drawing | undefined> => {
  const response = await fetch(file).catch(() => null);
  return response?.ok ? readDrawing(await response.text()) : undefined;
});
