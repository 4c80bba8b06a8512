/** Predictions for a skinned animal of each species through the season, beside the observed values. */
import type { SumFilter } from '../../book/sums/season-filter.ts';
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { predictionPath, type YieldObservation, type YieldSums } from '../../core/yield/yield.ts';
import type { Session } from '../session/session.ts';
import { evenly } from './yields.ts';
import type { PredictionPath } from '../contract/contract.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';

/** Maximum steps of a path; each is one fit of the take-home for all species together. */
const MAX_STEPS = 20;
/** More points in one picture are indistinguishable. */
const MAX_POINTS = 300;

/** A finished animal with an observation, and its date. */
interface FinishedAnimal {
  row: SeasonRow;
  on: string;
  /** Its index among all of the season, from 0. */
  at: number;
  observation: YieldObservation;
}

/**
 * Every species with observations in the season, most animals first. The band uses all of the season's animals,
 * whatever the filter, because the model does. The points and the species are filtered.
 * @param rows the filtered animals
 */
export function predictionPaths(
  session: Session,
  filter: SumFilter & { season: number },
  rows: readonly SeasonRow[],
): PredictionPath[] {
  const observed = inOrder(session, filter.season);
  const shown = new Set(rows);
  const groups = [...Map.groupBy(observed, ({ row }) => row.species)]
    .filter(([code]) => filter.species === undefined || filter.species === code)
    .sort(([, a], [, b]) => b.length - a.length);
  if (groups.length === 0) return [];
  const before = session.yields.before(filter.season);
  const stops = stopsOf(observed.length);
  const ranges = predictionPath(
    session.species.all,
    before,
    observed.map(({ observation }) => observation),
    {
      groups: groups.map(([species]) => ({ species, brought: 'skinned' as const })),
      stops,
      level: LEVEL,
      shops: session.yields.shops,
    },
  );
  return groups.map(([code, own], column) => {
    let n = 0;
    const steps = stops.flatMap((stop, row) => {
      const range = ranges[row]?.[column];
      while ((own[n]?.at ?? stop) < stop) n++;
      return range ? [{ on: observed[Math.max(0, stop - 1)]?.on ?? '', n, ...range }] : [];
    });
    return {
      code,
      name: session.species.of(code).name,
      earlier: animalsIn(before, code),
      // Of consecutive equal steps the newest is kept: it includes the relatives' observations.
      steps: steps.filter(({ n }, row) => row === 0 || (n > 0 && n !== steps[row + 1]?.n)),
      points: [...evenly(pointsOf(own, shown), MAX_POINTS)],
    };
  });
}

function pointsOf(own: readonly FinishedAnimal[], shown: ReadonlySet<SeasonRow>): PredictionPath['points'] {
  return own.flatMap(({ row, on }, i) =>
    row.share === null || !shown.has(row) ? [] : [{ ticket: row.ticket, on, share: row.share, nth: i + 1 }],
  );
}

/** The season's animals in the order in which they became ready; those still being packed by their cutting date. */
function inOrder(session: Session, season: number): FinishedAnimal[] {
  const observations = session.yields.summaryOf(season);
  const byDay = new Map<string, { row: SeasonRow; observation: YieldObservation }[]>();
  for (const row of session.book.seasonRows(season)) {
    const observation = row.finished === 1 ? observations.get(row.animal_id) : undefined;
    if (!observation) continue;
    const { ready_on: ready, cut_at: cut, received_on: received } = row;
    const on = ready ?? (cut === null ? received : session.dayOf(cut));
    const beside = byDay.get(on);
    if (beside) beside.push({ row, observation });
    else byDay.set(on, [{ row, observation }]);
  }
  return [...byDay]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([on, own]) =>
      own
        .sort((a, b) => a.row.animal_id - b.row.animal_id)
        .map(({ row, observation }) => ({ row, observation, on })),
    )
    .map(({ row, observation, on }, at) => ({ row, observation, on, at }));
}

/** The first, the last, and evenly between: `stopsOf(3)` is [0, 1, 2, 3]. */
function stopsOf(animals: number): number[] {
  const steps = Math.min(animals, MAX_STEPS - 1);
  return Array.from({ length: steps + 1 }, (_, i) => Math.round((i * animals) / steps));
}

function animalsIn(sums: YieldSums, species: string): number {
  return Object.values(sums)
    .filter(({ group }) => group.species === species)
    .reduce((total, { splits }) => total + (splits.takeHome?.n ?? 0), 0);
}
