import * as v from 'valibot';
import { read } from '../session/procedure.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { SeasonChoices } from '../contract/contract.ts';

/** The values that a season view can be filtered by. */
export const getChoices = read(
  v.object({ season: v.optional(seasonYear) }),
  (session, input): SeasonChoices => {
    const season = input.season ?? session.season();
    const { first, last } = session.book.seasonYields.days({ season });
    return {
      seasons: [...new Set([...session.book.animals.seasons(), session.season()])].sort((a, b) => b - a),
      species: session.book.seasonYields
        .species({ season })
        .map(({ species, animals }) => ({ code: species, name: session.species.of(species).name, animals })),
      cutters: session.book.seasonYields.cutters({ season }),
      days: first !== null && last !== null ? { from: first, to: last } : null,
    };
  },
);
