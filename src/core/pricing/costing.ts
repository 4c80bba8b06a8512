/** The cost of a service, its break-even fee and its margin. Money in minor units, not rounded. */
import { checkService } from './costing-input.ts';
import type { Service } from './costing-input.ts';
import { ValidationError } from '../values/validation-error.ts';
import { GRAMS_PER } from '../values/units.ts';

export type { Service } from './costing-input.ts';

/** Cost of one job (one animal or batch through the service). */
export interface ServiceCost {
  readonly code: string;
  readonly finishedGrams: number;
  readonly hours: number;
  readonly packages: number;
  /** Minor units per job. */
  readonly parts: { wages: number; overhead: number; packaging: number; fat: number };
  readonly costPerJob: number;
  readonly costPerLb: number;
  readonly costPerKg: number;
}

/**
 * Cost of a job and of a finished pound:
 *
 *     own meat = receivedGrams × (1 − shrink)      finished = own meat / (1 − boughtFatShare)
 *     hours    = (minutesPerAnimal + minutesPerKg × received kg) / 60
 *     cost     = hours × (wage + overhead) + ⌈finished / gramsPerPackage⌉ × packaging + bought fat kg × its price
 *
 * Packages are whole; fat is weighed as it goes in.
 * @throws ValidationError `number.not-finite`, `amount.negative`, `grams.not-positive`, `share.out-of-range`
 * @example
 * // 20 kg, nothing lost, 1 h at 2000 + 1000 an hour, 20 packages at 25: 3000 + 500 = 3500, or 175 a kilogram
 * costOf({ code: 'grind', receivedGrams: 20_000, shrink: 0, minutesPerAnimal: 20, minutesPerKg: 2,
 *   wagePerHour: 2000, overheadPerHour: 1000, gramsPerPackage: 1000, packagingPerPackage: 25,
 *   boughtFatShare: 0, fatPerKg: 0 }).costPerKg;
 */
export function costOf(service: Service): ServiceCost {
  checkService(service);
  const ownGrams = service.receivedGrams * (1 - service.shrink);
  const finishedGrams = ownGrams / (1 - service.boughtFatShare);
  const hours = (service.minutesPerAnimal + (service.minutesPerKg * service.receivedGrams) / 1000) / 60;
  const packages = Math.ceil(finishedGrams / service.gramsPerPackage - PACKAGE_COUNT_TOLERANCE);
  const parts = {
    wages: hours * service.wagePerHour,
    overhead: hours * service.overheadPerHour,
    packaging: packages * service.packagingPerPackage,
    fat: ((finishedGrams - ownGrams) / 1000) * service.fatPerKg,
  };
  const costPerJob = parts.wages + parts.overhead + parts.packaging + parts.fat;
  return {
    code: service.code,
    finishedGrams,
    hours,
    packages,
    parts,
    costPerJob,
    costPerLb: (costPerJob / finishedGrams) * GRAMS_PER.lb,
    costPerKg: (costPerJob / finishedGrams) * 1000,
  };
}

/** Twenty packages of 1 kg hold 20.000000001 kg. */
const PACKAGE_COUNT_TOLERANCE = 1e-9;

/**
 * The fee per finished pound or kilogram that leaves `margin` of itself after cost (0 = break even): cost / (1 −
 * margin).
 * @throws ValidationError `share.out-of-range` unless 0 ≤ margin < 1, and as `costOf`
 * @example breakEvenFee(service, 0.3, 'lb') // a cost of 70 a pound needs a fee of 100
 */
export function breakEvenFee(service: Service, margin: number, unit: 'lb' | 'kg'): number {
  if (!(margin >= 0 && margin < 1)) throw new ValidationError('share.out-of-range', 'margin');
  const cost = costOf(service);
  return (unit === 'lb' ? cost.costPerLb : cost.costPerKg) / (1 - margin);
}

/**
 * The margin of a fee: per job, and as a fraction of the fee (negative for a loss).
 * @throws ValidationError `amount.not-positive` for a fee of 0 or less, and as `costOf`
 */
export function marginOf(
  service: Service,
  feePerUnit: number,
  unit: 'lb' | 'kg',
): { perJob: number; share: number } {
  if (!Number.isFinite(feePerUnit)) throw new ValidationError('number.not-finite', 'feePerUnit');
  if (feePerUnit <= 0) throw new ValidationError('amount.not-positive', 'feePerUnit');
  const cost = costOf(service);
  const income = feePerUnit * (cost.finishedGrams / GRAMS_PER[unit]);
  const perJob = income - cost.costPerJob;
  return { perJob, share: perJob / income };
}
