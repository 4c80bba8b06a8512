import { onScopeDispose, watch } from 'vue';
import { useLine } from './line.ts';

/** Says while an entry is half typed on this screen: until it is saved or cleared, no new version is loaded. */
export function useOpenEntry(isOpen: () => boolean): void {
  const line = useLine();
  const own = Symbol('entry');
  const note = (open: boolean) => {
    const others = [...line.open].filter((one) => one !== own);
    line.open = new Set(open ? [...others, own] : others);
  };
  watch(isOpen, note, { immediate: true });
  onScopeDispose(() => note(false));
}
