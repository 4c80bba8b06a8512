/** Print settings stored on this computer: the selected paper sizes. */
import { useLocalStorage } from '@vueuse/core';
import type { Ref } from 'vue';
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize, type TagSize } from '../paper/sizes.ts';

/** The choice stored under `key`; an unknown stored value is ignored. */
function remembered<T extends string>(key: string, choices: readonly T[], first: T): Ref<T> {
  return useLocalStorage<T>(key, first, {
    serializer: { read: (stored) => choices.find((one) => one === stored) ?? first, write: String },
    writeDefaults: false,
    listenToStorageChanges: false,
  });
}

/** The selected size of package labels. */
export function rememberedLabelSize(): Ref<PackageSize> {
  return remembered('gambrel.label-size', Object.keys(PACKAGE_SIZES) as PackageSize[], '4x3');
}

/** The selected size of carcass tags. */
export function rememberedTagSize(): Ref<TagSize> {
  return remembered('gambrel.tag-size', Object.keys(TAG_SIZES) as TagSize[], '4x6');
}
