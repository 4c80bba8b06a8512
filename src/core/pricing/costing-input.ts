import { ValidationError } from '../values/validation-error.ts';

/** One service as the shop runs it, for a typical job. Money in minor units, shares as fractions. */
export interface Service {
  readonly code: string;
  /** Grams received by the service: hanging weight for cutting, trim for grinding. */
  readonly receivedGrams: number;
  /** The share of it that does not leave as product: bone, trimming, drip. */
  readonly shrink: number;
  /** Fixed minutes per animal (hang, set up, clean down). */
  readonly minutesPerAnimal: number;
  /** Further minutes per kilogram received. */
  readonly minutesPerKg: number;
  readonly wagePerHour: number;
  /** Rent, power, insurance and so on, spread over working hours. */
  readonly overheadPerHour: number;
  readonly gramsPerPackage: number;
  readonly packagingPerPackage: number;
  /** Bought fat as a share of the finished product, below 1. */
  readonly boughtFatShare: number;
  readonly fatPerKg: number;
}

export type ServiceInput = Exclude<keyof Service, 'code'>;

const POSITIVE: readonly ServiceInput[] = ['receivedGrams', 'gramsPerPackage'];
const NOT_NEGATIVE: readonly ServiceInput[] = [
  'minutesPerAnimal',
  'minutesPerKg',
  'wagePerHour',
  'overheadPerHour',
  'packagingPerPackage',
  'fatPerKg',
];
/** Shares below 1, since something must be left over. */
const SHARES: readonly ServiceInput[] = ['shrink', 'boughtFatShare'];

/** Every input, in the order of the form. */
export const SERVICE_INPUTS: readonly ServiceInput[] = [...POSITIVE, ...SHARES, ...NOT_NEGATIVE];

/** @throws ValidationError `number.not-finite`, `grams.not-positive`, `amount.negative`, `share.out-of-range` */
export function checkService(service: Service): void {
  for (const field of SERVICE_INPUTS)
    if (!Number.isFinite(service[field])) throw new ValidationError('number.not-finite', field);
  for (const field of POSITIVE)
    if (service[field] <= 0) throw new ValidationError('grams.not-positive', field);
  for (const field of NOT_NEGATIVE)
    if (service[field] < 0) throw new ValidationError('amount.negative', field);
  for (const field of SHARES)
    if (service[field] < 0 || service[field] >= 1) throw new ValidationError('share.out-of-range', field);
}
