/** What this computer keeps from one printing to the next: the sizes that its printer prints on. */
import { useLocalStorage } from '@vueuse/core';
import type { Ref } from 'vue';
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize, type TagSize } from '../paper/sizes.ts';

/** A choice kept under `key`. What was kept and is no choice any more is forgotten. */
function remembered<T extends string>(key: string, choices: readonly T[], first: T): Ref<T> {
  return useLocalStorage<T>(key, first, {
    serializer: { read: (kept) => choices.find((one) => one === kept) ?? first, write: String },
    writeDefaults: false,
    listenToStorageChanges: false,
  });
}

/** The size of package labels that this computer prints on. */
export function rememberedLabelSize(): Ref<PackageSize> {
  return remembered('gambrel.label-size', Object.keys(PACKAGE_SIZES) as PackageSize[], '4x3');
}

/** The size of carcass tags that this computer prints on. */
export function rememberedTagSize(): Ref<TagSize> {
  return remembered('gambrel.tag-size', Object.keys(TAG_SIZES) as TagSize[], '4x6');
}
