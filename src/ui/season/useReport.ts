import { computed } from 'vue';
import type { ChartStory } from '../charts/story.ts';
import { useShop } from '../stores/shop.ts';
import { useLive } from '../use/useLive.ts';
import {
  checkStories,
  fatStories,
  flowStories,
  moneyStories,
  poundsStories,
  smokehouseStories,
  yieldsStories,
} from './report-stories.ts';
import { narrows } from '../season-frame/season-query.ts';
import { useSeasonFilter } from '../season-frame/useSeasonFilter.ts';

/**
 * The charts of the printed report, in chapters, for the animals of the address. Money and the smokehouse cover the whole season,
 * because bills and batches cannot be filtered, so a filtered report leaves them out.
 */
export function useReport() {
  const shop = useShop();
  const { filter } = useSeasonFilter();
  const yields = useLive('season.yields', () => filter.value);
  const pounds = useLive('season.pounds', () => filter.value);
  const flow = useLive('season.flow', () => filter.value);
  const fat = useLive('season.fat', () => filter.value);
  const check = useLive('season.check', () => filter.value);
  const narrowed = computed(() => narrows(filter.value));
  const smoked = useLive('made.losses', () => (narrowed.value ? null : {}));
  const money = useLive('costing.get', () => (narrowed.value ? null : { season: filter.value.season }));

  const problem = computed(
    () =>
      [yields, pounds, flow, fat, check, money, smoked]
        .map((one) => one.problem.value)
        .find((one) => one !== null) ?? null,
  );
  /** Empty until all data is loaded, so that the page does not shift. */
  const chapters = computed((): ChartStory[][] => {
    const [y, p, f, m] = [yields.value.value, pounds.value.value, flow.value.value, money.value.value];
    const [ground, quoted, made] = [fat.value.value, check.value.value, smoked.value.value];
    if (!y || !p || !f || !ground || !quoted || !((m && made) || narrowed.value)) return [];
    return [
      ...yieldsStories(y, shop.format).map((story) => [story]),
      poundsStories(p, shop.format),
      flowStories(f, narrowed.value, shop.format),
      ...(m ? [moneyStories(m, shop.format)] : []),
      fatStories(ground, shop.format),
      ...(made ? [smokehouseStories(made, y.season, shop.format)] : []),
      checkStories(quoted, shop.format),
    ].filter((stories) => stories.length > 0);
  });
  return {
    filter,
    narrowed,
    yields: yields.value,
    pounds: pounds.value,
    problem,
    chapters,
    /** The first finding of each chapter, for the cover. */
    findings: computed(() => chapters.value.flatMap(([first]) => (first ? [first.finding] : []))),
  };
}
