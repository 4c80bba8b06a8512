import { computed, onScopeDispose, reactive, ref, type Ref } from 'vue';
import { text } from '../../words/compiled/window/labels.ts';
import { copiesTyped } from './copies.ts';
import type { LabelRun } from './package-label.ts';
import { sheetsOf } from '../paper/sheets.ts';
import { PACKAGE_SIZES, type PackageSize } from '../paper/sizes.ts';
import { useRecipes } from './useRecipes.ts';

const EVERYBODY = '';

/** The options on a page of labels (owner, counts, ingredients) and the resulting pages. */
export function useLabelRuns(runs: () => readonly LabelRun[], size: Ref<PackageSize>) {
  const whose = ref(EVERYBODY);
  const used = ref('0');
  /** Counts as typed; an unchanged run has its default count. */
  const typed = reactive<Record<string, string>>({});
  /** Other ingredients of a product, while they are typed. */
  const also = reactive<Record<string, string>>({});
  const recipes = useRecipes();

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
  const alsoIn = (product: string): string => also[product] ?? recipes.of(product);

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

  /** Call it when the field loses focus. */
  async function saveIngredients(product: string): Promise<void> {
    const value = also[product];
    if (value === undefined) return;
    const ground = runs().some(({ label }) => label.product === product && label.batch !== null);
    await recipes.save(product, value, ground);
  }
  // A key that navigates removes the field before it loses focus.
  onScopeDispose(() => Object.keys(also).forEach((product) => void saveIngredients(product)));

  return {
    recipes, whose, used, owners, shown, products, places, usedCount, wrong, labels, pages, copies, alsoIn,
    setCopies: (run: LabelRun, value: string): void => void (typed[run.key] = value),
    setAlso: (product: string, value: string): void => void (also[product] = value),
    saveIngredients,
  }; // prettier-ignore
}
