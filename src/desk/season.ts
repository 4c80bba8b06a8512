import * as v from 'valibot';
import type { YieldRow } from '../book/sums.ts';
import { individualsChart } from '../core/control-chart.ts';
import { median } from '../core/median.ts';
import { fatIn } from './batch-page.ts';
import type { StoredPlan } from './grind-plan.ts';
import { keptQuotes } from './kept-quotes.ts';
import { read } from './procedure.ts';
import type { DeskRoom } from './room.ts';
import type { SeasonLook } from './shapes.ts';
import { baseGrams, takeHomeGrams, wholeTakeHomeGrams } from './take-home.ts';
import { beforeAnyAnimal } from './yield-knowledge.ts';

/** Fewer tests than this draw no limits that mean anything. Common practice, no source. */
const LEAST_TESTS = 5;

/** What the season's weighings say: yield by species and fat by batch. */
export const look = read(
  v.object({ season: v.optional(v.pipe(v.number(), v.integer())) }),
  (room, input): SeasonLook => {
    const season = input.season ?? room.season();
    const finished = room.book.sums.finished();
    const ofSeason = finished.filter((row) => row.season === season);
    const codes = [...new Set(ofSeason.map(({ species }) => species))];
    const batches = room.book.batches.ofSeason(season).map((batch) => {
      const tests = room.book.batches.tests(batch.id);
      return {
        id: batch.id,
        name: batch.name,
        at: batch.started_on,
        target: batch.target_fat,
        planned: (JSON.parse(batch.plan) as StoredPlan).fat,
        weighedIn: fatIn(room, batch.id).fat,
        tested: tests.at(-1)?.fat ?? null,
        species: [
          ...new Set(
            room.book.batches.animals(batch.id).map((animal) => room.species.of(animal.species).name),
          ),
        ],
      };
    });
    // A test is judged by how far it lies from what was aimed at, so that batches of different targets share one chart.
    const off = batches.flatMap(({ tested, target }) =>
      tested === null || target === null ? [] : [tested - target],
    );
    return {
      season,
      animals: room.book.sums.animals(season),
      takeHomeGrams: ofSeason.reduce((total, row) => total + (takeHomeGrams(row) ?? 0), 0),
      species: codes
        .map((code) =>
          speciesYield(
            room,
            code,
            ofSeason.filter(({ species }) => species === code),
          ),
        )
        .sort((a, b) => b.n - a.n || a.name.localeCompare(b.name)),
      batches,
      quotes: keptQuotes(room, season, ofSeason),
      control: off.length >= LEAST_TESTS ? controlOf(off) : null,
    };
  },
);

function speciesYield(
  room: DeskRoom,
  code: string,
  rows: readonly YieldRow[],
): SeasonLook['species'][number] {
  const species = room.species.of(code);
  const points = rows.flatMap((row) => {
    const base = row.brought === 'whole' || row.brought === 'skinned' ? baseGrams(row) : null;
    const takeHome = wholeTakeHomeGrams(row);
    return base === null || takeHome === null
      ? []
      : [{ id: row.id, ticket: row.ticket, share: takeHome / base, season: row.season }];
  });
  const group = { species: code, brought: 'skinned' } as const;
  return {
    code,
    name: species.name,
    points,
    n: points.length,
    median: median(points.map(({ share }) => share)),
    published: { low: species.takeHome.low, high: species.takeHome.high, source: species.takeHome.source },
    believed: room.yields.shares(group).takeHome,
    prior: beforeAnyAnimal(room.species.all).shares(group).takeHome,
  };
}

function controlOf(values: readonly number[]): SeasonLook['control'] {
  const { centre, lower, upper, outside } = individualsChart(values);
  return { centre, lower, upper, outside: [...outside] };
}
