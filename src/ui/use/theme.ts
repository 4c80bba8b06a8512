import { readonly, ref } from 'vue';

const prefersDark = matchMedia('(prefers-color-scheme: dark)');
const wish = ref<'light' | 'dark' | 'system'>('system');
const current = ref<'light' | 'dark'>('light');
const printing = ref(false);

/** The theme on screen. Charts watch it, because a canvas keeps the colours that it was drawn with. */
export const theme = readonly(current);
/** True while the page is laid out for paper, which is always light. */
export const onPaper = readonly(printing);

/** Puts the shop's wish on <html> as `light` or `dark`; `system` follows the computer. */
export function setTheme(wanted: 'light' | 'dark' | 'system'): void {
  wish.value = wanted;
  apply();
}

function apply(): void {
  const dark = wish.value === 'dark' || (wish.value === 'system' && prefersDark.matches);
  current.value = dark && !printing.value ? 'dark' : 'light';
  document.documentElement.dataset.theme = current.value;
}

function print(now: boolean): void {
  printing.value = now;
  apply();
}

prefersDark.addEventListener('change', apply);
window.addEventListener('beforeprint', () => print(true));
window.addEventListener('afterprint', () => print(false));
