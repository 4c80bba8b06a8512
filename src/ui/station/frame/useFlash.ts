import { ref, watch } from 'vue';
import { useLine } from '../line.ts';

/** How long the color stands, ms. */
const STANDS = 1_200;

/** The color of a moment: `kept` when an entry was put into the outbox, `asks` when the desk asks or refuses. */
export function useFlash() {
  const line = useLine();
  const flash = ref<'' | 'kept' | 'asks'>('');
  let timer: ReturnType<typeof setTimeout> | undefined;
  watch(
    () => [line.entries.length, line.unanswered.length] as const,
    ([all, asked], [before, askedBefore]) => {
      if (all <= before && asked <= askedBefore) return;
      flash.value = asked > askedBefore ? 'asks' : 'kept';
      clearTimeout(timer);
      timer = setTimeout(() => (flash.value = ''), STANDS);
    },
  );
  return flash;
}
