/** How the season flows through the shop: day by day, how full the coolers get, how long animals take, what waits. */
import type { WaitRow } from '../book/season-flow.ts';
import { coolerForecast } from '../core/cooler-forecast.ts';
import { spreadOf } from '../core/spread.ts';
import { read } from './procedure.ts';
import type { DeskRoom } from './room.ts';
import { backlogOf } from './season-backlog.ts';
import { seasonDays, type SeasonDays } from './season-days.ts';
import { seasonFilter, sumsOf } from './season-filter.ts';
import type { FlowLook } from './shapes.ts';
import { LEVEL } from './yield-knowledge.ts';

const FORECAST_DAYS = 21;
/** What was long ago was another shop. Our own choice. */
const EARLIER_SEASONS = 5;

export const flow = read(seasonFilter, (room, input): FlowLook => {
  const filter = sumsOf(room, input);
  const running = filter.season === room.season();
  const days = seasonDays(
    room.book.seasonFlow.days(filter),
    room.settings.zone,
    running ? room.today() : null,
  );
  // A cooler holds every animal: what is narrowed down has no places of its own.
  const whole = Object.entries(filter).every(([key, value]) => key === 'season' || value === undefined);
  const waits = room.book.seasonFlow.waits(filter);
  return {
    season: filter.season,
    days: days.days,
    places: placesOf(room),
    ...(running && whole && days.days.length > 0 ? forecastOf(room, days) : { forecast: [], pace: null }),
    waits: histogram(waits),
    waitOf: bySpecies(room, waits),
    backlog: backlogOf(room, filter),
  };
});

function placesOf(room: DeskRoom): number | null {
  const coolers = room.book.coolers.all();
  return coolers.length > 0 ? coolers.reduce((total, { places }) => total + places, 0) : null;
}

function forecastOf(room: DeskRoom, { days, taken, left }: SeasonDays): Pick<FlowLook, 'forecast' | 'pace'> {
  const season = room.season();
  const intake = room.book.seasonFlow.intake(season - EARLIER_SEASONS, season - 1);
  const { takenPerDay, cutPerDay, paceDays, earlierSeasons, ...told } = coolerForecast(
    {
      today: room.today(),
      season,
      hanging: days.at(-1)?.hanging ?? 0,
      taken,
      left,
      earlier: [...Map.groupBy(intake, (row) => row.season)].map(([of, rows]) => ({
        season: of,
        taken: rows,
      })),
    },
    FORECAST_DAYS,
    LEVEL,
  );
  return { forecast: told.days, pace: { takenPerDay, cutPerDay, days: paceDays, earlierSeasons } };
}

function histogram(rows: readonly WaitRow[]): FlowLook['waits'] {
  return [...Map.groupBy(rows, ({ days }) => days)]
    .map(([days, own]) => ({ days, animals: count(own) }))
    .sort((a, b) => a.days - b.days);
}

/** Most animals first. */
function bySpecies(room: DeskRoom, rows: readonly WaitRow[]): FlowLook['waitOf'] {
  return [...Map.groupBy(rows, ({ species }) => species)]
    .flatMap(([code, own]) => {
      const spread = spreadOf(own.flatMap(({ days, animals }) => new Array<number>(animals).fill(days)));
      return spread ? [{ code, name: room.species.of(code).name, spread }] : [];
    })
    .sort((a, b) => b.spread.n - a.spread.n || a.name.localeCompare(b.name));
}

function count(rows: readonly { animals: number }[]): number {
  return rows.reduce((total, { animals }) => total + animals, 0);
}
