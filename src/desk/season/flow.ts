/** The season's flow through the shop, day by day: cooler load, waiting times and backlog. */
import type { IntakeRow } from '../../book/sums/season-flow.ts';
import { coolerForecast } from '../../core/forecast/cooler.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { backlogOf } from './backlog.ts';
import { animalDates, seasonDays, type SeasonDays } from './days.ts';
import { chosenRows, seasonFilter, sumsOf } from '../session/season-filter.ts';
import { waitsOf } from './waits.ts';
import type { FlowReport } from '../contract/contract.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';

const FORECAST_DAYS = 21;
/** Older seasons no longer describe the shop. Our own choice. */
const EARLIER_SEASONS = 5;

export const flow = read(seasonFilter, (session, input): FlowReport => {
  const filter = sumsOf(session, input);
  const running = filter.season === session.season();
  const rows = chosenRows(session, filter);
  const days = seasonDays(
    animalDates(session, rows),
    session.settings.zone,
    running ? session.today() : null,
  );
  // A cooler holds every animal: a filtered view has no capacity of its own.
  const whole = Object.entries(filter).every(([key, value]) => key === 'season' || value === undefined);
  return {
    season: filter.season,
    days: days.days,
    places: placesOf(session),
    ...(running && whole && hasBegun(session, days)
      ? forecastOf(session, days)
      : { forecast: [], pace: null }),
    ...waitsOf(session, rows),
    backlog: backlogOf(session, filter.season, rows),
  };
});

function placesOf(session: Session): number | null {
  const coolers = session.book.coolers.all();
  return coolers.length > 0 ? coolers.reduce((total, { places }) => total + places, 0) : null;
}

/** Whether anything arrived up to today: with a clock that was set back, all of it may be in the future. */
function hasBegun(session: Session, { taken }: SeasonDays): boolean {
  return taken.some(({ on }) => on <= session.today());
}

/** Forecasts from the data up to today. */
function forecastOf(
  session: Session,
  { days, taken, left }: SeasonDays,
): Pick<FlowReport, 'forecast' | 'pace'> {
  const season = session.season();
  const today = session.today();
  const known = <Day extends { on: string }>(all: readonly Day[]): Day[] =>
    all.filter(({ on }) => on <= today);
  const { takenPerDay, cutPerDay, paceDays, earlierSeasons, ...forecast } = coolerForecast(
    {
      today,
      season,
      hanging: known(days).at(-1)?.hanging ?? 0,
      taken: known(taken),
      left: known(left),
      earlier: earlierIntake(session, season),
    },
    FORECAST_DAYS,
    LEVEL,
  );
  return { forecast: forecast.days, pace: { takenPerDay, cutPerDay, days: paceDays, earlierSeasons } };
}

/** Daily intake of earlier seasons, of those with any. */
function earlierIntake(session: Session, season: number): { season: number; taken: IntakeRow[] }[] {
  return Array.from({ length: EARLIER_SEASONS }, (_, k) => season - EARLIER_SEASONS + k)
    .map((of) => ({
      season: of,
      taken: session.cached('animal', of, 'intake', () => session.book.seasonFlow.intake(of)),
    }))
    .filter(({ taken }) => taken.length > 0);
}
