/** The work that waits in the shop, in hours by its own minutes. */
import type { SumFilter } from '../book/season-filter.ts';
import { ASSUMED, figuresOf } from './costing-figures.ts';
import type { DeskRoom } from './room.ts';
import type { FlowLook } from './shapes.ts';

export function backlogOf(room: DeskRoom, filter: SumFilter & { season: number }): FlowLook['backlog'] {
  const { own, figures } = figuresOf(room);
  const { cutting, grinding } = figures.services;
  const uncut = room.book.seasonFlow.uncut(filter);
  const animals = sum(uncut.map((one) => one.animals));
  const weighed = sum(uncut.map((one) => one.weighed));
  const toCut = sum(
    uncut.map(
      (one) => one.grams + (one.animals - one.weighed) * (one.usual ?? ASSUMED.cutting.receivedGrams),
    ),
  );
  const trimGrams = room.book.seasonFlow.trimLeft(filter);
  const batches = Math.ceil(trimGrams / usualBatch(room, filter.season));
  return {
    animals,
    grams: sum(uncut.map((one) => one.grams)),
    unweighed: animals - weighed,
    hours: hours(animals, toCut, cutting),
    trimGrams,
    grindHours: hours(batches, trimGrams, grinding),
    ownMinutes: own,
  };
}

/** The mean of what went into the season's finished batches. */
function usualBatch(room: DeskRoom, season: number): number {
  const batches = room.book.seasonMoney.grinds(season).filter(({ own }) => own > 0);
  return batches.length > 0
    ? sum(batches.map(({ own }) => own)) / batches.length
    : ASSUMED.grinding.receivedGrams;
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
