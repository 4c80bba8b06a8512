/** How the season flows through the shop: day by day, how full the coolers get, how long animals take, what waits. */
import type { IntakeRow } from '../../book/sums/season-flow.ts';
import { coolerForecast } from '../../core/forecast/cooler.ts';
import { read } from '../session/procedure.ts';
import type { DeskRoom } from '../session/room.ts';
import { backlogOf } from './backlog.ts';
import { happenedTo, seasonDays, type SeasonDays } from './days.ts';
import { chosenRows, seasonFilter, sumsOf } from '../session/season-filter.ts';
import { waitsOf } from './waits.ts';
import type { FlowLook } from '../contract/contract.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';

const FORECAST_DAYS = 21;
/** What was long ago was another shop. Our own choice. */
const EARLIER_SEASONS = 5;

export const flow = read(seasonFilter, (room, input): FlowLook => {
  const filter = sumsOf(room, input);
  const running = filter.season === room.season();
  const rows = chosenRows(room, filter);
  const days = seasonDays(happenedTo(room, rows), room.settings.zone, running ? room.today() : null);
  // A cooler holds every animal: what is narrowed down has no places of its own.
  const whole = Object.entries(filter).every(([key, value]) => key === 'season' || value === undefined);
  return {
    season: filter.season,
    days: days.days,
    places: placesOf(room),
    ...(running && whole && hasBegun(room, days) ? forecastOf(room, days) : { forecast: [], pace: null }),
    ...waitsOf(room, rows),
    backlog: backlogOf(room, filter.season, rows),
  };
});

function placesOf(room: DeskRoom): number | null {
  const coolers = room.book.coolers.all();
  return coolers.length > 0 ? coolers.reduce((total, { places }) => total + places, 0) : null;
}

/** Whether anything came up to today: with a clock that was set back, all of it may lie ahead. */
function hasBegun(room: DeskRoom, { taken }: SeasonDays): boolean {
  return taken.some(({ on }) => on <= room.today());
}

/** Looks ahead from what happened up to today. */
function forecastOf(room: DeskRoom, { days, taken, left }: SeasonDays): Pick<FlowLook, 'forecast' | 'pace'> {
  const season = room.season();
  const today = room.today();
  const known = <Day extends { on: string }>(all: readonly Day[]): Day[] =>
    all.filter(({ on }) => on <= today);
  const { takenPerDay, cutPerDay, paceDays, earlierSeasons, ...told } = coolerForecast(
    {
      today,
      season,
      hanging: known(days).at(-1)?.hanging ?? 0,
      taken: known(taken),
      left: known(left),
      earlier: earlierIntake(room, season),
    },
    FORECAST_DAYS,
    LEVEL,
  );
  return { forecast: told.days, pace: { takenPerDay, cutPerDay, days: paceDays, earlierSeasons } };
}

/** Intake by day of the seasons before this one, of those with any. */
function earlierIntake(room: DeskRoom, season: number): { season: number; taken: IntakeRow[] }[] {
  return Array.from({ length: EARLIER_SEASONS }, (_, k) => season - EARLIER_SEASONS + k)
    .map((of) => ({
      season: of,
      taken: room.ofSeason('animal', of, 'intake', () => room.book.seasonFlow.intake(of)),
    }))
    .filter(({ taken }) => taken.length > 0);
}
