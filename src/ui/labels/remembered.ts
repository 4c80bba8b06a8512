/** What this computer keeps from one printing to the next: its own printer, and the shop's recipes. */
import { ref, watch, type Ref } from 'vue';
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize, type TagSize } from './sizes.ts';

/** A choice kept under `key`. What was kept and is no choice any more is forgotten. */
function remembered<T extends string>(key: string, choices: readonly T[], first: T): Ref<T> {
  const kept = localStorage.getItem(key);
  const choice = ref(choices.find((one) => one === kept) ?? first) as Ref<T>;
  watch(choice, (value) => localStorage.setItem(key, value));
  return choice;
}

/** What is in a product that was not weighed in. Recipes come back every week, so this computer keeps it. */
export function recipeOf(product: string): { read(): string; keep(text: string): void } {
  const key = `gambrel.label-also.${product.trim().toLowerCase()}`;
  return {
    read: () => localStorage.getItem(key) ?? '',
    keep: (text) => (text ? localStorage.setItem(key, text) : localStorage.removeItem(key)),
  };
}

/** The size of package labels that this computer prints on. */
export function rememberedLabelSize(): Ref<PackageSize> {
  return remembered('gambrel.label-size', Object.keys(PACKAGE_SIZES) as PackageSize[], '4x3');
}

/** The size of carcass tags that this computer prints on. */
export function rememberedTagSize(): Ref<TagSize> {
  return remembered('gambrel.tag-size', Object.keys(TAG_SIZES) as TagSize[], '4x6');
}
