/** The cost of the billed animals, from their own weights and the services' figures: by species and by service. */
import { costOf, type Service } from '../../core/pricing/costing.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { repricedBills, type RepricedBill } from './repriced-bills.ts';
import type { BilledAnimal } from './season-bills.ts';
import type { ServiceCode, SpeciesMargin } from '../contract/contract.ts';

/** Bought fat is never all of a grind. */
const MAX_FAT = 0.95;

/** Costs of some animals, in minor units. */
type WorkCost = Record<ServiceCode | 'fat', number>;

/** Prices in minor units: of bought fat, and of what goes into products besides meat. */
interface PerKg {
  fatPerKg: number;
  ingredientsPerKg: number;
}

/** A billed animal with its cost. */
interface CostedAnimal {
  species: string;
  subtotalMinor: number;
  cost: WorkCost;
}

export function costedAnimals(
  session: Session,
  bills: readonly BilledAnimal[],
  services: Readonly<Record<ServiceCode, Service>>,
  { fatPerKg, ingredientsPerKg }: PerKg,
): CostedAnimal[] {
  const seenBy = repricedBills(session, pricesInForce(session));
  return bills.map(({ species, subtotalMinor, amounts }) => ({
    species,
    subtotalMinor,
    cost: workCost(seenBy(amounts), services, { fatPerKg, ingredientsPerKg }),
  }));
}

export function speciesMargins(session: Session, animals: readonly CostedAnimal[]): SpeciesMargin[] {
  return [...Map.groupBy(animals, ({ species }) => species)]
    .map(([code, own]) => ({
      code,
      name: session.species.of(code).name,
      animals: own.length,
      incomeMinor: own.reduce((total, { subtotalMinor }) => total + subtotalMinor, 0),
      cost: own.reduce((total, { cost }) => total + sum(Object.values(cost)), 0),
    }))
    .sort((a, b) => b.incomeMinor - a.incomeMinor || a.name.localeCompare(b.name));
}

/** The same animals' costs by service. */
export function costByWork(animals: readonly CostedAnimal[]): WorkCost {
  const of = (work: keyof WorkCost): number => sum(animals.map(({ cost }) => cost[work]));
  return {
    cutting: of('cutting'),
    grinding: of('grinding'),
    products: of('products'),
    fat: of('fat'),
  };
}

/**
 * Cutting by hanging weight and grinding by output, each as a separate job; products, which mostly mix several
 * owners' meat, by weight at the cost of a typical batch and of its ingredients; and the added fat at its price.
 */
function workCost(
  { amounts: { hangingGrams, groundGrams }, productGrams, fatGrams }: RepricedBill,
  services: Readonly<Record<ServiceCode, Service>>,
  { fatPerKg, ingredientsPerKg }: PerKg,
): WorkCost {
  const { cutting, grinding, products } = services;
  const made = groundGrams + productGrams;
  const boughtFatShare = made > 0 ? Math.min(MAX_FAT, fatGrams / made) : 0;
  const job = (service: Service): number => costOf({ ...service, fatPerKg: 0 }).costPerJob;
  const ground = {
    boughtFatShare,
    receivedGrams: (groundGrams * (1 - boughtFatShare)) / (1 - grinding.shrink),
  };
  return {
    cutting: hangingGrams > 0 ? job({ ...cutting, receivedGrams: hangingGrams }) : 0,
    grinding: groundGrams > 0 ? job({ ...grinding, ...ground }) : 0,
    products:
      productGrams > 0
        ? (productGrams / 1000) * (costOf({ ...products, fatPerKg: 0 }).costPerKg + ingredientsPerKg)
        : 0,
    fat: (fatGrams / 1000) * fatPerKg,
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
