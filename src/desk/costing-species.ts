/** What each kind of game brought and cost: every billed animal by its own weights and the services' figures. */
import { costOf, type Service } from '../core/costing.ts';
import { pricesInForce } from './prices.ts';
import type { DeskRoom } from './room.ts';
import { amountsFor, type BilledAnimal } from './season-bills.ts';
import type { ServiceCode, SpeciesMargin } from './shapes.ts';

/** Bought fat is never all of a grind. */
const MOST_FAT = 0.95;

export function speciesMargins(
  room: DeskRoom,
  bills: readonly BilledAnimal[],
  services: Readonly<Record<ServiceCode, Service>>,
  fatPerKg: number,
): SpeciesMargin[] {
  const seen = amountsFor(room, pricesInForce(room)?.lines ?? []);
  return [...Map.groupBy(bills, ({ species }) => species)]
    .map(([code, own]) => ({
      code,
      name: room.species.of(code).name,
      animals: own.length,
      incomeMinor: own.reduce((total, { subtotalMinor }) => total + subtotalMinor, 0),
      cost: own.reduce((total, { amounts }) => total + animalCost(seen(amounts), services, fatPerKg), 0),
    }))
    .sort((a, b) => b.incomeMinor - a.incomeMinor || a.name.localeCompare(b.name));
}

/**
 * Cutting by hanging weight, grinding by what came out, each as a job of its own; products, which are mostly made of
 * several owners' meat, by weight at the cost of a typical batch; and the fat that went in at its price.
 */
export function animalCost(
  amounts: BilledAnimal['amounts'],
  services: Readonly<Record<ServiceCode, Service>>,
  fatPerKg: number,
): number {
  const { cutting, grinding, products } = services;
  const { hangingGrams, groundGrams } = amounts;
  const productGrams = total(amounts.products);
  const fatGrams = total(amounts.fats);
  const made = groundGrams + productGrams;
  const boughtFatShare = made > 0 ? Math.min(MOST_FAT, fatGrams / made) : 0;
  const job = (service: Service): number => costOf({ ...service, fatPerKg: 0 }).costPerJob;
  const typical = costOf({ ...products, fatPerKg: 0 });
  return (
    (hangingGrams > 0 ? job({ ...cutting, receivedGrams: hangingGrams }) : 0) +
    (groundGrams > 0
      ? job({
          ...grinding,
          boughtFatShare,
          receivedGrams: (groundGrams * (1 - boughtFatShare)) / (1 - grinding.shrink),
        })
      : 0) +
    (productGrams / 1000) * typical.costPerKg +
    (fatGrams / 1000) * fatPerKg
  );
}

function total(record: Readonly<Record<string, number>> = {}): number {
  return Object.values(record).reduce((all, grams) => all + grams, 0);
}
