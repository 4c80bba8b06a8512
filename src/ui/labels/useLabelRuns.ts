import { computed, reactive, ref, type Ref } from 'vue';
import { labelText as text } from '../texts/en-labels.ts';
import { copiesTyped } from './copies.ts';
import type { LabelRun } from './package-label.ts';
import { recipeOf } from './remembered.ts';
import { sheetsOf } from './sheets.ts';
import { PACKAGE_SIZES, type PackageSize } from './sizes.ts';

const EVERYBODY = '';

/** What is chosen on a page of labels: whose, how many, what else is in it; and the pages that come of it. */
export function useLabelRuns(runs: () => readonly LabelRun[], size: Ref<PackageSize>) {
  const whose = ref(EVERYBODY);
  const used = ref('0');
  /** Counts as typed; a run that nobody touched has its usual count. */
  const typed = reactive<Record<string, string>>({});
  const also = reactive<Record<string, string>>({});

  const owners = computed(() => {
    const names = new Map(runs().map(({ label }) => [label.ticket, label.hunter]));
    const each = [...names].map(([ticket, hunter]) => ({ value: ticket, label: ticket, note: hunter }));
    return [{ value: EVERYBODY, label: text.everybody }, ...each];
  });
  const shown = computed(() =>
    runs().filter(({ label }) => whose.value === EVERYBODY || label.ticket === whose.value),
  );
  const products = computed(() => [...new Set(shown.value.map(({ label }) => label.product))]);
  const copies = (run: LabelRun): string => typed[run.key] ?? String(run.copies);
  const alsoIn = (product: string): string => also[product] ?? recipeOf(product).read();

  const places = computed(() => PACKAGE_SIZES[size.value].columns * PACKAGE_SIZES[size.value].rows);
  const usedCount = computed(() => copiesTyped(used.value, places.value - 1));
  const wrong = computed(
    () =>
      (places.value > 1 && usedCount.value === null) ||
      shown.value.some((run) => copiesTyped(copies(run)) === null),
  );
  const labels = computed(() =>
    shown.value.flatMap((run) => Array.from({ length: copiesTyped(copies(run)) ?? 0 }, () => run.label)),
  );
  const pages = computed(() => sheetsOf(labels.value, PACKAGE_SIZES[size.value], usedCount.value ?? 0));

  return {
    whose, used, owners, shown, products, places, usedCount, wrong, labels, pages, copies, alsoIn,
    setCopies: (run: LabelRun, value: string): void => void (typed[run.key] = value),
    setAlso(product: string, value: string): void {
      also[product] = value;
      recipeOf(product).keep(value.trim());
    },
  }; // prettier-ignore
}
