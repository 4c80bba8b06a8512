import { ref, watch, type Ref } from 'vue';

/**
 * A choice that this computer keeps: each has its own printer. What was kept and is no choice any more is forgotten.
 * @param key name under which it is kept
 */
export function remembered<T extends string>(key: string, choices: readonly T[], first: T): Ref<T> {
  const kept = localStorage.getItem(key);
  const choice = ref(choices.find((one) => one === kept) ?? first) as Ref<T>;
  watch(choice, (value) => localStorage.setItem(key, value));
  return choice;
}

/** A text that this computer keeps, empty at first. */
export function rememberedText(key: string): { read(): string; keep(text: string): void } {
  return {
    read: () => localStorage.getItem(key) ?? '',
    keep: (text) => (text ? localStorage.setItem(key, text) : localStorage.removeItem(key)),
  };
}
