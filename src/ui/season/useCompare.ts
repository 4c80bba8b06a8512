import { computed } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import type { CompareBy, SeasonChoices, SeasonFilter } from '../../bridge/contract.ts';
import { compareStory } from '../charts/yields/compare-story.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/season/compare.ts';
import { useLive } from '../use/useLive.ts';
import { firstGroups, type Groups, type Side } from './first-groups.ts';
import { filterWords } from '../season-frame/filter-words.ts';
import { drilldownLink, filterOf, queryOf } from '../season-frame/season-query.ts';

export const MEASURES = Object.keys(text.measures) as CompareBy[];

/**
 * Two groups and their measure, stored in the address (`a.species=moose&b.species=elk&by=bone`). The default is the
 * two most frequent species of the view, or one species by carcass condition.
 */
export function useCompare() {
  const shop = useShop();
  const route = useRoute();
  const router = useRouter();
  const base = computed(() => filterOf(route.query));
  const chosen = computed(() =>
    Object.keys(route.query).some((key) => key.startsWith('a.') || key.startsWith('b.')),
  );
  const { value: choices } = useLive('season.getChoices', () => ({ season: base.value.season }));

  const groups = computed((): Groups => {
    if (chosen.value) return { a: filterOf(route.query, 'a.'), b: filterOf(route.query, 'b.') };
    return firstGroups(base.value, choices.value);
  });

  const choicesOfGroup = {
    a: useLive('season.getChoices', () => ({ season: groups.value.a.season })).value,
    b: useLive('season.getChoices', () => ({ season: groups.value.b.season })).value,
  };

  const by = computed({
    get: (): CompareBy => MEASURES.find((value) => value === route.query.by) ?? 'takeHome',
    set: (wanted) => put({ by: wanted }),
  });
  const { value: view, problem } = useLive('season.compare', () =>
    choices.value === null ? null : { by: by.value, ...groups.value },
  );

  function put(some: { by?: CompareBy; groups?: Groups }): void {
    const { a, b } = some.groups ?? groups.value;
    const query = {
      ...queryOf(base.value),
      by: some.by ?? by.value,
      ...queryOf(a, 'a.'),
      ...queryOf(b, 'b.'),
    };
    void router.push({ path: route.path, query });
  }
  const seasonOf = (filter: SeasonFilter): number => filter.season ?? shop.view?.season ?? 0;
  /** A group keeps its season in the address, so that a group of all animals is valid too. */
  const withSeason = (filter: SeasonFilter): SeasonFilter => ({ ...filter, season: seasonOf(filter) });

  const names = computed(() => {
    const { a, b } = groups.value;
    const seasons = seasonOf(a) !== seasonOf(b);
    const nameOf = (filter: SeasonFilter): string => {
      const pieces = filterWords(filter, (code) => shop.species(code)?.name ?? code, shop.format);
      if (seasons) pieces.push(text.season({ season: String(seasonOf(filter)) }));
      return pieces.join(', ') || text.all;
    };
    return { a: nameOf(a), b: nameOf(b) };
  });

  return {
    groups,
    by,
    problem,
    /** No animals on either side, without any filter by the user. */
    nothing: computed(() => !chosen.value && view.value?.a.n === 0 && view.value.b.n === 0),
    story: computed(() =>
      view.value
        ? compareStory(view.value, names.value, shop.format, (side) =>
            drilldownLink(groups.value[side], by.value),
          )
        : null,
    ),
    choicesOf: (side: Side): SeasonChoices | null => choicesOfGroup[side].value,
    change: (side: Side, some: SeasonFilter): void =>
      put({
        groups: {
          a: withSeason(groups.value.a),
          b: withSeason(groups.value.b),
          [side]: withSeason({ ...groups.value[side], ...some }),
        },
      }),
    clear: (side: Side): void =>
      put({
        groups: {
          a: withSeason(groups.value.a),
          b: withSeason(groups.value.b),
          [side]: { season: seasonOf(groups.value[side]) },
        },
      }),
  };
}
