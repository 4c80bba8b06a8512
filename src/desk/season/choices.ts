import * as v from 'valibot';
import { read } from '../session/procedure.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { SeasonChoices } from '../contract/contract.ts';

/** What a season view can be narrowed to. */
export const choices = read(v.object({ season: v.optional(seasonYear) }), (room, input): SeasonChoices => {
  const season = input.season ?? room.season();
  const { first, last } = room.book.seasonYields.days({ season });
  return {
    seasons: [...new Set([...room.book.animals.seasons(), room.season()])].sort((a, b) => b - a),
    species: room.book.seasonYields
      .species({ season })
      .map(({ species, animals }) => ({ code: species, name: room.species.of(species).name, animals })),
    cutters: room.book.seasonYields.cutters({ season }),
    days: first !== null && last !== null ? { from: first, to: last } : null,
  };
});
