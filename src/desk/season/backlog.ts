/** The backlog of work in the shop, in hours by its own minutes. */
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { ASSUMED, figuresOf } from '../costing/figures.ts';
import type { Session } from '../session/session.ts';
import type { FlowReport } from '../contract/contract.ts';

/** @param rows the animals of the requested season */
export function backlogOf(
  session: Session,
  season: number,
  rows: readonly SeasonRow[],
): FlowReport['backlog'] {
  const { own, figures } = figuresOf(session);
  const { cutting, grinding } = figures.services;
  const inWork = rows.filter(({ stage }) => ['hanging', 'cutting', 'packing'].includes(stage));
  const positive = session.book.seasonFlow.positive(inWork.map(({ animal_id: id }) => id));
  const worked = inWork.filter(({ animal_id: id }) => !positive.has(id));
  const uncut = worked.filter(({ stage, cut_at: at }) => stage !== 'packing' && at === null);
  const unweighed = uncut.filter(({ base }) => base === null);
  const grams = sum(uncut.map(({ base }) => base ?? 0));
  const toCome = sum(unweighed.map(({ species }) => usualWeight(session, season, species)));
  const trimGrams = sum(worked.map(({ trim, trim_ground: ground }) => Math.max(0, (trim ?? 0) - ground)));
  const batches = Math.ceil(
    trimGrams / (session.book.seasonFlow.usualBatch(season) ?? ASSUMED.grinding.receivedGrams),
  );
  return {
    animals: uncut.length,
    grams,
    unweighed: unweighed.length,
    hours: hours(uncut.length, grams + toCome, cutting),
    trimGrams,
    grindHours: hours(batches, trimGrams, grinding),
    ownMinutes: own,
  };
}

/** The mean weight of the season's animals of the species. */
function usualWeight(session: Session, season: number, species: string): number {
  return session.cached('animal', season, `usual weight ${species}`, () => {
    const weighed = session.book
      .seasonRows(season)
      .flatMap((row) => (row.species === species && row.base !== null ? [row.base] : []));
    return weighed.length > 0 ? sum(weighed) / weighed.length : ASSUMED.cutting.receivedGrams;
  });
}

function hours(
  jobs: number,
  grams: number,
  { minutesPerAnimal, minutesPerKg }: { minutesPerAnimal: number; minutesPerKg: number },
): number {
  return (jobs * minutesPerAnimal + (grams / 1000) * minutesPerKg) / 60;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
