import { useEventListener, usePreferredDark } from '@vueuse/core';
import { defineStore } from 'pinia';
import { computed, ref, watch } from 'vue';
import { useShop } from './shop.ts';

/** Light or dark, as the shop wishes or as the computer is set; it stands on <html> for the style sheets. */
export const useTheme = defineStore('theme', () => {
  const shop = useShop();
  const prefersDark = usePreferredDark();
  /** True while the page is laid out for paper, which is always light. */
  const onPaper = ref(false);
  /** The theme on screen. Charts watch it, because a canvas keeps the colours that it was drawn with. */
  const current = computed(() => {
    const wish = shop.settings?.theme ?? 'system';
    const dark = wish === 'dark' || (wish === 'system' && prefersDark.value);
    return dark && !onPaper.value ? 'dark' : 'light';
  });

  // The browser takes the page as it stands when `beforeprint` is over.
  watch(current, (theme) => (document.documentElement.dataset.theme = theme), {
    immediate: true,
    flush: 'sync',
  });
  useEventListener('beforeprint', () => (onPaper.value = true));
  useEventListener('afterprint', () => (onPaper.value = false));
  return { current, onPaper };
});
