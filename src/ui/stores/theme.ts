import { useEventListener, usePreferredDark } from '@vueuse/core';
import { defineStore } from 'pinia';
import { computed, ref, watch } from 'vue';
import { useShop } from './shop.ts';

/** Light or dark, by the shop's setting or the computer's; set on <html> for the style sheets. */
export const useTheme = defineStore('theme', () => {
  const shop = useShop();
  const prefersDark = usePreferredDark();
  /** True while the page is laid out for print, which is always light. */
  const onPaper = ref(false);
  /** The theme on screen. Charts watch it, because a canvas keeps its colors. */
  const current = computed(() => {
    const wish = shop.settings?.theme ?? 'system';
    const dark = wish === 'dark' || (wish === 'system' && prefersDark.value);
    return dark && !onPaper.value ? 'dark' : 'light';
  });

  // The browser captures the page at the end of `beforeprint`.
  watch(current, (theme) => (document.documentElement.dataset.theme = theme), {
    immediate: true,
    flush: 'sync',
  });
  useEventListener('beforeprint', () => (onPaper.value = true));
  useEventListener('afterprint', () => (onPaper.value = false));
  return { current, onPaper };
});
